import type { AnalysisProgress } from '../../host/analysis-order.js';
import { printAnalysisProgress } from '../../report/finance/analysis-progress.js';
import type { Terminal } from '../terminal.js';

/** Shows on standard error how far a question has come. */
export function analysisLine(terminal: Terminal, wanted: boolean, currency: string) {
  const started = performance.now();
  let shown = '';
  return {
    show(progress: AnalysisProgress): void {
      if (!terminal.isTTY && !wanted) return;
      const seconds = (performance.now() - started) / 1000;
      const line = printAnalysisProgress({ ...progress, seconds, currency }).slice(0, terminal.columns - 1);
      if (line === shown) return;
      terminal.err(terminal.isTTY ? `\r${line.padEnd(shown.length)}` : `${line}\n`);
      shown = line;
    },
    end(): void {
      if (terminal.isTTY && shown !== '') terminal.err('\n');
    },
  };
}

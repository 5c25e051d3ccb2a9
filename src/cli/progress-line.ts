import type { PlanHooks } from '../host/plan-request.js';
import { printProgress } from '../report/progress-report.js';
import type { Terminal } from './terminal.js';

/** Shows on standard error how far a whole-number solve has come, and stops it at ctrl-C. */
export function progressLine(terminal: Terminal, wanted: boolean): PlanHooks {
  let shown = '';
  let removeListener = () => {};
  return {
    onStart: (stop) => {
      removeListener = terminal.onInterrupt(stop);
    },
    onProgress: (progress) => {
      if (!terminal.isTTY && !wanted) return;
      const line = printProgress(progress).slice(0, terminal.columns - 1);
      if (line === shown) return;
      terminal.err(terminal.isTTY ? `\r${line.padEnd(shown.length)}` : `${line}\n`);
      shown = line;
    },
    onEnd: () => {
      removeListener();
      if (terminal.isTTY && shown !== '') terminal.err('\n');
    },
  };
}

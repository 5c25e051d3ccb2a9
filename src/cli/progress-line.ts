import type { PlanHooks } from '../host/plan-request.js';
import { printProgress } from '../report/progress-report.js';
import type { Terminal } from './terminal.js';

/** Shows on standard error how far a whole-number solve has come, and stops it at ctrl-C. */
export function progressLine(terminal: Terminal, wanted: boolean): PlanHooks {
  let shown = '';
  let told = '';
  let removeListener = () => {};
  return {
    onStart: (stop) => {
      removeListener = terminal.onInterrupt(stop);
    },
    onProgress: (progress) => {
      if (!terminal.isTTY && !wanted) return;
      // At most a line a second, unless there is a better plan.
      const news = JSON.stringify([Math.floor(progress.seconds), progress.best]);
      if (news === told) return;
      told = news;
      const line = printProgress(progress).slice(0, terminal.columns - 1);
      terminal.err(terminal.isTTY ? `\r${line.padEnd(shown.length)}` : `${line}\n`);
      shown = line;
    },
    onEnd: () => {
      removeListener();
      if (terminal.isTTY && shown !== '') terminal.err('\n');
    },
  };
}

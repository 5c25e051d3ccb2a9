import type { MessagePort } from 'node:worker_threads';

/** What a pool hands a thread. `stopped` holds one flag: 1 asks it to stop. */
export interface ThreadTask<W> {
  readonly work: W;
  readonly stopped: Int32Array<SharedArrayBuffer>;
  readonly port: MessagePort;
}

/** That the work is begun, then how far it has come. */
export type ThreadMessage<P> =
  | { readonly kind: 'begun' }
  | { readonly kind: 'progress'; readonly progress: P };

/** What is asked and told while work goes on in a thread. */
export interface ThreadWatch<P> {
  readonly cancelled: () => boolean;
  readonly onProgress: (progress: P) => void;
}

/** Works on a task in this thread: from here on it is begun, and stops by looking whether it should. */
export async function workOn<W, P, R>(
  { work, stopped, port }: ThreadTask<W>,
  answer: (work: W, watch: ThreadWatch<P>) => R | Promise<R>,
): Promise<R> {
  const post = (message: ThreadMessage<P>) => port.postMessage(message);
  post({ kind: 'begun' });
  try {
    return await answer(work, {
      cancelled: () => Atomics.load(stopped, 0) === 1,
      onProgress: (progress) => post({ kind: 'progress', progress }),
    });
  } finally {
    port.close();
  }
}

/** Runs a call into the package; turns what it throws into an EngineFailure. */
export type Guard = <T>(action: string, call: () => T) => T;

/**
 * A trap of the WebAssembly, a stack overflow or an exhausted memory: the instance's state is unknown.
 * Emscripten's abort is a WebAssembly.RuntimeError too.
 */
export function isTrap(error: unknown): error is Error {
  if (!(error instanceof Error)) return false;
  if (error.name === 'RuntimeError') return true;
  return error instanceof RangeError && /call stack|memory/i.test(error.message);
}

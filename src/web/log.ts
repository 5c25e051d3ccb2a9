/** One line of the log: a request that was answered, or a fault. Holds no header, no body and no query. */
export interface LogEntry {
  readonly time: string;
  readonly level: 'info' | 'error';
  readonly event: 'request' | 'fault' | 'started' | 'closing' | 'closed';
  readonly requestId?: string;
  readonly method?: string;
  readonly path?: string;
  readonly status?: number;
  readonly milliseconds?: number;
  readonly client?: string;
  /** Of a fault: for whoever runs the server, never for a client. */
  readonly fault?: string;
  readonly detail?: string;
}

export type Log = (entry: LogEntry) => void;

/** The line of a fault. */
export function faultEntry(error: unknown, requestId: string, milliseconds: number): LogEntry {
  return {
    time: new Date(milliseconds).toISOString(),
    level: 'error',
    event: 'fault',
    requestId,
    fault: error instanceof Error ? faultText(error) : String(error),
  };
}

function faultText(error: Error): string {
  const text = error.stack ?? error.message;
  return error.cause instanceof Error ? `${text}\nbecause of ${faultText(error.cause)}` : text;
}

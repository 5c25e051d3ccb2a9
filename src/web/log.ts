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

/** Where a command reads and writes; the process in earnest, strings in tests. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Whether standard error is a terminal, on which a line may be written over. */
  readonly isTTY: boolean;
  readonly columns: number;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** All of standard input. */
  readonly input: () => Promise<Uint8Array>;
  /** Calls the listener at the first ctrl-C, or where the process is asked to end; the next one ends the process. Returns what takes the listener off. */
  readonly onInterrupt: (listener: () => void) => () => void;
}

/** An answer as it is sent, and sent again. */
export interface StoredAnswer {
  readonly status: 200 | 422 | 500 | 503;
  readonly contentType: string;
  /** UTF-8. */
  readonly body: Uint8Array<ArrayBuffer>;
  /** Strong, quotes included; of the body. */
  readonly etag: string;
  /** Of the question: 64 hexadecimal digits. */
  readonly digest: string;
  /** False where time or a user cut it short: the same question may get another answer. */
  readonly isRepeatable: boolean;
}

/** Keeps repeatable answers by their question's digest, those used last, up to a number of bytes. */
export class AnswerStore {
  private readonly answers = new Map<string, StoredAnswer>();
  private size = 0;

  constructor(private readonly mostBytes: number) {}

  find(digest: string): StoredAnswer | undefined {
    const found = this.answers.get(digest);
    if (found === undefined) return undefined;
    this.answers.delete(digest);
    this.answers.set(digest, found);
    return found;
  }

  keep(answer: StoredAnswer): void {
    if (!answer.isRepeatable || answer.body.byteLength > this.mostBytes) return;
    this.drop(answer.digest);
    this.answers.set(answer.digest, answer);
    this.size += answer.body.byteLength;
    for (const [digest] of this.answers) {
      if (this.size <= this.mostBytes) break;
      this.drop(digest);
    }
  }

  private drop(digest: string): void {
    const known = this.answers.get(digest);
    if (known === undefined) return;
    this.answers.delete(digest);
    this.size -= known.body.byteLength;
  }
}

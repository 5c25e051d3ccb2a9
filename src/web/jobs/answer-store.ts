/** An answer as it is sent, and sent again. */
export interface StoredAnswer {
  readonly status: 200 | 422 | 500 | 503;
  readonly contentType: string;
  readonly body: string;
  /** Strong, quotes included; of the body. */
  readonly etag: string;
  /** Of the question: 64 hexadecimal digits. */
  readonly digest: string;
  /** False where time or a user cut it short: the same question may get another answer. */
  readonly isRepeatable: boolean;
}

/** Keeps repeatable answers by their question's digest, those used last, up to a number of characters. */
export class AnswerStore {
  private readonly answers = new Map<string, StoredAnswer>();
  private size = 0;

  constructor(private readonly mostCharacters: number) {}

  find(digest: string): StoredAnswer | undefined {
    const found = this.answers.get(digest);
    if (found === undefined) return undefined;
    this.answers.delete(digest);
    this.answers.set(digest, found);
    return found;
  }

  keep(answer: StoredAnswer): void {
    if (!answer.isRepeatable || answer.body.length > this.mostCharacters) return;
    this.drop(answer.digest);
    this.answers.set(answer.digest, answer);
    this.size += answer.body.length;
    for (const [digest] of this.answers) {
      if (this.size <= this.mostCharacters) break;
      this.drop(digest);
    }
  }

  private drop(digest: string): void {
    const known = this.answers.get(digest);
    if (known === undefined) return;
    this.answers.delete(digest);
    this.size -= known.body.length;
  }
}

/** Lets one piece of work at a time go on under each name, in the order in which they came. */
export class LockByName {
  private readonly last = new Map<string, Promise<unknown>>();

  async run<T>(name: string, work: () => Promise<T>): Promise<T> {
    const before = this.last.get(name) ?? Promise.resolve();
    const mine = before.then(work, work);
    this.last.set(name, mine);
    try {
      return await mine;
    } finally {
      if (this.last.get(name) === mine) this.last.delete(name);
    }
  }
}

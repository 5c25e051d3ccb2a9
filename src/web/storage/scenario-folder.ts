import { randomUUID } from 'node:crypto';
import { mkdir, readdir, realpath, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { History } from './history.js';
import { LockByName } from './lock-by-name.js';
import { etagOf, type PlainFile, readPlainFile } from './plain-file.js';
import { isScenarioName } from './scenario-name.js';
import type { DeleteOutcome, Expected, HistoryEntry, WriteOutcome } from './stored-scenario.js';
import { createAtomically, flushFolder, writeAtomically } from './write-atomically.js';

const EXTENSION = '.json';

/** What a process that was killed while it wrote left behind. */
const LEFT_OVER = /^\.[0-9a-f-]{36}\.tmp$/;

/**
 * Scenarios as files `<name>.json` of one folder, for one process at a time. Nothing is remembered between calls, so that what
 * people do to the files by hand is picked up. Names are checked by isScenarioName before they come here.
 */
export class ScenarioFolder {
  private readonly lock = new LockByName();
  private readonly history: History;

  private constructor(
    private readonly folder: string,
    readonly mostBytes: number,
  ) {
    this.history = new History(join(folder, '.history'), mostBytes);
  }

  /** Opens a folder, which is made where it is missing; what interrupted writes left is cleared away. */
  static async open(path: string, mostBytes: number): Promise<ScenarioFolder> {
    await mkdir(path, { recursive: true });
    const folder = await realpath(path);
    for (const entry of await readdir(folder)) {
      if (LEFT_OVER.test(entry)) await rm(join(folder, entry), { force: true });
    }
    return new ScenarioFolder(folder, mostBytes);
  }

  /** Names of all files that are called like a scenario, in order. */
  async names(): Promise<string[]> {
    const entries = await readdir(this.folder);
    return entries
      .filter((entry) => entry.endsWith(EXTENSION))
      .map((entry) => entry.slice(0, -EXTENSION.length))
      .filter(isScenarioName)
      .sort();
  }

  read(name: string): Promise<PlainFile> {
    return readPlainFile(this.pathOf(name), this.mostBytes);
  }

  /** Writes a scenario if what is there is what the writer expects. */
  write(name: string, bytes: Uint8Array, expected: Expected): Promise<WriteOutcome> {
    return this.lock.run(name, () => this.writeNow(name, bytes, expected));
  }

  /**
   * Reads and writes without anybody writing between. `change` gives the new bytes, or undefined to leave the file
   * as it is.
   */
  update(
    name: string,
    change: (file: PlainFile) => Promise<Uint8Array | undefined>,
  ): Promise<WriteOutcome | undefined> {
    return this.lock.run(name, async () => {
      const file = await this.read(name);
      const bytes = await change(file);
      if (bytes === undefined) return undefined;
      const etags = file.kind === 'file' ? [file.etag] : 'any';
      return this.writeNow(name, bytes, { kind: 'version', etags });
    });
  }

  delete(name: string, etags: readonly string[] | 'any'): Promise<DeleteOutcome> {
    return this.lock.run(name, async () => {
      const file = await this.read(name);
      if (file.kind === 'absent') return { kind: 'absent' };
      if (file.kind !== 'file') return { kind: 'not a file' };
      if (etags !== 'any' && !etags.includes(file.etag)) return { kind: 'conflict', etag: file.etag };
      await this.history.keep(name, file.bytes, file.etag, randomUUID());
      await rm(this.pathOf(name));
      await flushFolder(this.folder);
      return { kind: 'deleted' };
    });
  }

  versions(name: string): Promise<HistoryEntry[]> {
    return this.history.list(name);
  }

  readVersion(name: string, version: number): Promise<PlainFile> {
    return this.history.read(name, version);
  }

  private async writeNow(name: string, bytes: Uint8Array, expected: Expected): Promise<WriteOutcome> {
    const path = this.pathOf(name);
    const unique = randomUUID();
    const temporary = join(this.folder, `.${unique}.tmp`);
    const etag = etagOf(bytes);
    const file = await this.read(name);
    if (file.kind === 'not a file' || file.kind === 'too large') return { kind: 'not a file' };
    if (file.kind === 'absent') {
      if (expected.kind === 'version') return { kind: 'conflict' };
      return (await createAtomically(path, temporary, bytes))
        ? { kind: 'created', etag }
        : { kind: 'conflict' };
    }
    if (expected.kind === 'nothing') return { kind: 'conflict', etag: file.etag };
    if (expected.etags !== 'any' && !expected.etags.includes(file.etag))
      return { kind: 'conflict', etag: file.etag };
    if (file.etag === etag) return { kind: 'unchanged', etag };
    await this.history.keep(name, file.bytes, file.etag, unique);
    await writeAtomically(path, temporary, bytes);
    return { kind: 'replaced', etag };
  }

  private pathOf(name: string): string {
    if (!isScenarioName(name)) throw new RangeError('no name of a scenario');
    return join(this.folder, `${name}${EXTENSION}`);
  }
}

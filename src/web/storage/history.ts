import { mkdir, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { type PlainFile, readPlainFile } from './plain-file.js';
import type { HistoryEntry } from './stored-scenario.js';
import { createAtomically, flushFolder } from './write-atomically.js';

/** Replaced versions that are kept of one scenario; older ones are let go. */
export const KEPT_VERSIONS = 200;

/** `000012-<digits of the tag>.json` */
const ENTRY = /^(\d{6,15})-([0-9a-f]{32})\.json$/;

/** The versions of scenarios that were replaced or deleted, in a folder beside them: `.history/<name>/`. */
export class History {
  constructor(
    private readonly folder: string,
    private readonly mostBytes: number,
  ) {}

  /** Oldest first. */
  async list(name: string): Promise<HistoryEntry[]> {
    return (await this.files(name)).map(({ version, etag }) => ({ version, etag }));
  }

  async read(name: string, version: number): Promise<PlainFile> {
    const entry = (await this.files(name)).find((each) => each.version === version);
    if (entry === undefined) return { kind: 'absent' };
    return readPlainFile(join(this.folder, name, entry.file), this.mostBytes);
  }

  /** Keeps a version that is about to be replaced; one that is the newest already is not kept twice. */
  async keep(name: string, bytes: Uint8Array, etag: string, unique: string): Promise<void> {
    const folder = join(this.folder, name);
    await mkdir(folder, { recursive: true });
    const kept = await this.files(name);
    const newest = kept.at(-1);
    if (newest?.etag === etag) return;
    const number = String((newest?.version ?? 0) + 1).padStart(6, '0');
    const path = join(folder, `${number}-${etag.slice(1, -1)}.json`);
    await createAtomically(path, join(folder, `.${unique}.tmp`), bytes);
    await flushFolder(this.folder);
    for (const { file } of kept.slice(0, Math.max(0, kept.length + 1 - KEPT_VERSIONS))) {
      await rm(join(folder, file), { force: true });
    }
  }

  private async files(name: string): Promise<(HistoryEntry & { readonly file: string })[]> {
    const names = await readdir(join(this.folder, name)).catch(() => []);
    return names
      .flatMap((file) => {
        const [, version, digits] = ENTRY.exec(file) ?? [];
        return version === undefined ? [] : [{ version: Number(version), etag: `"${digits}"`, file }];
      })
      .sort((a, b) => a.version - b.version);
  }
}

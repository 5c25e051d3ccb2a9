import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { UsageError } from './exit-code.js';
import type { Terminal } from './terminal.js';

/**
 * The text of a file, or of standard input where the path is '-'.
 *
 * @throws UsageError where it cannot be read or is not UTF-8.
 */
export async function readText(path: string, terminal: Terminal): Promise<string> {
  const bytes = path === '-' ? await terminal.input() : await readBytes(path);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const place = path === '-' ? 'standard input' : path;
    throw new UsageError(`${place} is not UTF-8 text. Save the scenario as UTF-8.`);
  }
}

/**
 * Writes files into a directory, which is made where it is missing.
 *
 * @throws UsageError where that is not possible.
 */
export async function writeFiles(
  directory: string,
  files: readonly { readonly name: string; readonly text: string | Uint8Array }[],
): Promise<void> {
  try {
    await mkdir(directory, { recursive: true });
    for (const { name, text } of files) await writeFile(join(directory, name), text);
  } catch (error) {
    throw new UsageError(`cannot write into ${directory}: ${reasonOf(error)}.`);
  }
}

async function readBytes(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    throw new UsageError(`cannot read ${path}: ${reasonOf(error)}.`);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or directory',
  EISDIR: 'it is a directory',
  ENOTDIR: 'part of the path is not a directory',
  EEXIST: 'it is a file, not a directory',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EROFS: 'the file system is read-only',
  ENOSPC: 'the disk is full',
};

/** Why the system refused. @throws what is no refusal of the system. */
function reasonOf(error: unknown): string {
  if (!(error instanceof Error) || !('code' in error)) throw error;
  return REASONS[String(error.code)] ?? String(error.code);
}

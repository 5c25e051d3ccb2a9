import type { Check } from '../../host/order.js';
import type { QuestionRunner } from '../../host/question-runner.js';
import type { Problem } from '../../issue/problem.js';
import type { PlainFile } from './plain-file.js';
import type { ScenarioFolder } from './scenario-folder.js';
import type { BrokenScenario, ScenarioListing, StoredScenario } from './stored-scenario.js';

export type LibraryReading =
  | { readonly kind: 'good'; readonly scenario: StoredScenario; readonly check: Check }
  | { readonly kind: 'broken'; readonly scenario: BrokenScenario }
  | { readonly kind: 'absent' };

/** Checks and documents that are remembered, by the entity tag of the text. */
const REMEMBERED = 500;
const DOCUMENTS = 50;

/** The scenarios of a folder, each checked before it is served. */
export class ScenarioLibrary {
  private readonly checks = new Map<string, Check>();
  private readonly documents = new Map<string, unknown>();

  constructor(
    readonly folder: ScenarioFolder,
    private readonly runner: Pick<QuestionRunner, 'check'>,
  ) {}

  async list(): Promise<ScenarioListing[]> {
    const listings: ScenarioListing[] = [];
    for (const name of await this.folder.names()) {
      const reading = await this.read(name);
      if (reading.kind === 'good') {
        const { scenario, check } = reading;
        const { title = name, warnings } = check;
        listings.push({ name, state: 'good', etag: scenario.etag, title, warnings });
      } else if (reading.kind === 'broken') listings.push({ ...reading.scenario, state: 'broken' });
    }
    return listings;
  }

  async read(name: string): Promise<LibraryReading> {
    return this.judge(name, await this.folder.read(name));
  }

  async readVersion(name: string, version: number): Promise<LibraryReading> {
    return this.judge(name, await this.folder.readVersion(name, version));
  }

  /** What a file is, as a scenario. */
  async judge(name: string, file: PlainFile): Promise<LibraryReading> {
    if (file.kind === 'absent') return { kind: 'absent' };
    if (file.kind !== 'file')
      return { kind: 'broken', scenario: { name, problems: [UNREADABLE[file.kind]] } };
    const { etag } = file;
    const text = textOf(file.bytes);
    if (text === undefined) return { kind: 'broken', scenario: { name, etag, problems: [NOT_UTF8] } };
    const check = await this.check(text, etag);
    if (check.problems.length > 0)
      return { kind: 'broken', scenario: { name, etag, problems: check.problems } };
    return { kind: 'good', scenario: { name, etag, text }, check };
  }

  private async check(text: string, etag: string): Promise<Check> {
    const known = this.checks.get(etag);
    if (known !== undefined) return known;
    const check = await this.runner.check({ text });
    remember(this.checks, REMEMBERED, etag, check);
    return check;
  }

  /** The document of a good scenario; the same object for the same text, not to be changed. */
  documentOf({ text, etag }: StoredScenario): unknown {
    if (this.documents.has(etag)) return this.documents.get(etag);
    const document: unknown = JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
    remember(this.documents, DOCUMENTS, etag, document);
    return document;
  }
}

/** Lets go of what was remembered first. */
function remember<T>(memory: Map<string, T>, most: number, key: string, value: T): void {
  memory.set(key, value);
  for (const [oldest] of memory) {
    if (memory.size <= most) break;
    memory.delete(oldest);
  }
}

function textOf(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

const UNREADABLE: Readonly<Record<'not a file' | 'too large', Problem>> = {
  'not a file': whole(
    'The file is a link, a folder or something else that is no plain file.',
    'Put the scenario itself there.',
  ),
  'too large': whole('The file is larger than this server takes.', 'Make the scenario smaller.'),
};

const NOT_UTF8 = whole('The file is not UTF-8 text.', 'Save the scenario as UTF-8.');

function whole(message: string, remedy: string): Problem {
  return { pointer: '', code: 'malformed', message, remedy };
}

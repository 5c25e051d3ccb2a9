import type { OfferPart } from '../../analysis/offer/judge-offer.js';
import { type OfferSource, readOffer, readOffers } from '../../analysis/offer/read-offer.js';
import type { OfferQuestion, OffersQuestion } from '../../host/answer-offer.js';
import { offerReport } from '../../report/offer-report.js';
import { offerSetsReport } from '../../report/offer-sets-report.js';
import { readJson } from '../../scenario/read-json.js';
import { readArguments, readPositive } from '../arguments.js';
import type { Command, Services } from '../command.js';
import { EXIT, type ExitCode, UsageError } from '../exit-code.js';
import { readText } from '../files.js';
import {
  inPool,
  present,
  QUESTION_HELP,
  QUESTION_OPTIONS,
  type QuestionValues,
  readNumber,
  stoppedAtOnce,
  withoutPlan,
} from '../finance/question.js';
import { printProblems } from '../print-problems.js';
import type { Terminal } from '../terminal.js';

const HELP = `Usage: cutpoint offer SCENARIO OFFER [OFFER …] [options]

Whether to sign a buyer's offer: verdict, gain, the price at which it breaks even, prices to quote
for other volumes, what it displaces, what each term is worth. OFFER is the id of an offer in the
scenario, or a file with a contract. Several offers: which of them to sign.

  --margin M          ask for this gain (present value) above the best plan without it
  --limit P           the highest price that the buyer would pay, in the unit of the offer's price
  --volume V          quote a price for this firm monthly volume too; may be repeated
  --if JSON           what the offer would be worth with other terms, as a JSON merge patch on it:
                      --if '{"monthly":{"min":30}}'
  --draws N --seed S  the gain under the scenario's uncertainty, N draws
  --verdict           verdict, gain, break-even and what it displaces only: the quickest answer
  --in-parts          count whole shifts and windows in parts throughout: quick, and not quite the plan
  --share ID          of several offers, this one may be signed in part; may be repeated
  --gap G             with whole shifts: stop each solve at this gap, a share of the money that moves
  --time-limit S      give all solves with whole shifts together S seconds (8); they stop with the
                      best plans so far, and the answer says what they leave open
${QUESTION_HELP}`;

const ALL_PARTS: readonly OfferPart[] = ['ladder', 'displaced', 'terms', 'calls'];
const QUICK_PARTS: readonly OfferPart[] = ['displaced'];

export const offerCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(
      args,
      {
        ...QUESTION_OPTIONS,
        margin: { type: 'string' },
        limit: { type: 'string' },
        volume: { type: 'string', multiple: true },
        if: { type: 'string' },
        draws: { type: 'string' },
        seed: { type: 'string' },
        verdict: { type: 'boolean' },
        'in-parts': { type: 'boolean' },
        share: { type: 'string', multiple: true },
        gap: { type: 'string' },
        'time-limit': { type: 'string' },
      },
      { least: 2, most: Number.POSITIVE_INFINITY, called: 'a scenario and an offer' },
    );
    const [path, ...named] = positionals;
    const reading = readJson(await readText(path, terminal));
    if (!reading.ok || reading.problems.length > 0) return printProblems(reading.problems, terminal);
    const { document } = reading;
    const sources = await Promise.all(named.map((name) => sourceOf(name, document, terminal)));
    const gap = readPositive('--gap', values.gap);
    const wholeSeconds = readPositive('--time-limit', values['time-limit']);
    const limits = {
      ...(gap === undefined ? {} : { gap }),
      ...(wholeSeconds === undefined ? {} : { wholeSeconds }),
    };
    const counting = values['in-parts'] === true ? 'in parts' : 'whole';
    const asking = { document, limits, values, terminal, services };
    if (sources.length > 1) return several(asking, { sources, divisible: values.share ?? [], counting });
    const draws = readPositive('--draws', values.draws);
    return one(asking, {
      source: sources[0],
      parts: values.verdict === true ? QUICK_PARTS : ALL_PARTS,
      margin: values.margin === undefined ? 0 : readNumber('--margin', values.margin),
      ...(values.limit === undefined ? {} : { priceLimit: readNumber('--limit', values.limit) }),
      counting,
      volumes: (values.volume ?? []).map((volume) => readNumber('--volume', volume)),
      ...(values.if === undefined ? {} : { change: readPatch(values.if) }),
      ...(draws === undefined
        ? {}
        : { uncertain: { draws: Math.max(1, Math.floor(draws)), seed: readNumber('--seed', values.seed) } }),
    });
  },
};

interface Asking {
  readonly document: unknown;
  readonly limits: { readonly gap?: number; readonly wholeSeconds?: number };
  readonly values: QuestionValues;
  readonly terminal: Terminal;
  readonly services: Services;
}

async function one(
  { document, limits, values, terminal, services }: Asking,
  question: OfferQuestion,
): Promise<ExitCode> {
  const signed = readOffer(document, question.source);
  if (!signed.ok) return printProblems(signed.problems, terminal);
  const reply = await inPool(terminal, services, values, signed.plant.units.currency, (pool) =>
    pool.answer({ kind: 'offer', document, question, limits }),
  );
  if (reply === undefined) return stoppedAtOnce(terminal);
  if (reply.kind === 'problems') return printProblems(reply.problems, terminal);
  const { status } = reply.document;
  const code =
    status === 'infeasible'
      ? EXIT.noFeasiblePlan
      : status === 'judged'
        ? EXIT.answered
        : EXIT.noCertifiedAnswer;
  return present(offerReport(signed.plant, reply.document), values, terminal, code);
}

async function several(
  { document, limits, values, terminal, services }: Asking,
  question: OffersQuestion,
): Promise<ExitCode> {
  const signed = readOffers(document, question.sources);
  if (!signed.ok) return printProblems(signed.problems, terminal);
  const { plant } = signed;
  const answer = await inPool(terminal, services, values, plant.units.currency, (pool) =>
    pool.answer({ kind: 'offers', document, question, limits }),
  );
  if (answer === undefined) return stoppedAtOnce(terminal);
  if ('problems' in answer) return printProblems(answer.problems, terminal);
  if (answer.status === 'cancelled') {
    terminal.err('Stopped before all sets were tried.\n');
    return EXIT.noCertifiedAnswer;
  }
  if (answer.status !== 'chosen') return withoutPlan(answer.status, terminal);
  return present(offerSetsReport(plant, answer), values, terminal);
}

/** An id of the scenario's offers, else a file. @throws UsageError where the file cannot be read. */
async function sourceOf(name: string, document: unknown, terminal: Terminal): Promise<OfferSource> {
  const offers =
    typeof document === 'object' && document !== null && 'offers' in document ? document.offers : [];
  const isListed =
    Array.isArray(offers) &&
    offers.some((offer) => typeof offer === 'object' && offer !== null && offer.id === name);
  if (isListed || !/[./\\]/.test(name)) return { id: name };
  const reading = readJson(await readText(name, terminal));
  if (!reading.ok || reading.problems.length > 0) {
    throw new UsageError(`${name} is no offer: ${reading.problems[0].message}`);
  }
  return { document: reading.document };
}

/** @throws UsageError where it is no JSON. */
function readPatch(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new UsageError(`--if takes a JSON merge patch, not '${text}'.`);
  }
}

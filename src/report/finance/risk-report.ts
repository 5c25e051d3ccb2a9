import type { Plant } from '../../plant/plant.js';
import { distributionChart } from '../charts/distribution-chart.js';
import { formatFigure, formatMoney } from '../figure.js';
import { namesOf } from '../names.js';
import type { Table } from '../table.js';
import type { QuestionReport } from './question-report.js';
import type { RiskDocument } from './risk-schema.js';

/** What a year may bring, in every form; everything is read off its document, names off the plant. */
export function riskReport(plant: Plant, document: RiskDocument): QuestionReport {
  const { units } = document;
  const distribution = distributionTable(document);
  const rungs = rungsTable(document, plant);
  return {
    document,
    units,
    headline: headline(document),
    sections: [
      { title: 'Present value over the draws', table: distribution, notes: withoutPlanNotes(document) },
      { title: 'Where tonnes leave the plant', table: rungs },
    ],
    tables: [
      { name: 'risk', table: distribution },
      { name: 'risk-rungs', table: rungs },
      { name: 'risk-draws', table: drawsTable(document) },
      { name: 'risk-without-plan', table: withoutPlanTable(document) },
    ],
    charts: document.distribution === undefined ? [] : [{ name: 'risk', svg: riskChart(document) }],
  };
}

function headline(answer: RiskDocument): string[] {
  const { title, units, distribution, shortfall, advance, evaluated, seed } = answer;
  const money = (value: number) => formatMoney(value, units.currency);
  const partial =
    answer.status === 'partial'
      ? [
          `Stopped after ${evaluated} of ${answer.draws} draws: this is a part of the answer.${
            answer.areAlike === true
              ? ' The draws so far are alike, since each is planned next to one like it: their figures are not those of all draws.'
              : ''
          }`,
        ]
      : [];
  if (distribution === undefined)
    return [`${title}: none of ${evaluated} draws has a plan (seed ${seed}).`, ...partial];
  return [
    `${title}: ${distribution.count} of ${evaluated} draws have a plan (seed ${seed}); present value ${money(distribution.mean)} on average, standard error ${money(distribution.standardError)}; the worst twentieth averages ${money(distribution.worstTwentieth)}.`,
    ...(shortfall === undefined
      ? []
      : [
          `It falls below ${money(shortfall.level)} in ${formatFigure(100 * shortfall.share, 1)} % of the draws, by ${money(shortfall.mean)} on average over all.`,
        ]),
    advance.loss === undefined
      ? `The plan made in advance breaks a limit in all ${advance.broken} draws.`
      : `The plan made in advance loses ${money(advance.loss.mean)} on average against one made after the prices are known, in the ${advance.kept} draws in which it can be kept; in ${advance.broken} it breaks a limit.`,
    ...partial,
  ];
}

function withoutPlanNotes({ withoutPlan }: RiskDocument): string[] {
  const { infeasible, invalid, uncertified, problems, limits } = withoutPlan;
  return [
    ...(infeasible === 0
      ? []
      : [
          `${infeasible} draws have no feasible plan. What stands in the way: ${
            limits
              .slice(0, 6)
              .map(({ limit, draws }) => `${limit} (${draws})`)
              .join('; ') || 'not told apart'
          }.`,
        ]),
    ...(invalid === 0 ? [] : [`${invalid} draws make no valid scenario.`]),
    ...problems.slice(0, 5).map(({ draws, message }) => `${draws} draws: ${message}`),
    ...(uncertified === 0 ? [] : [`${uncertified} draws have no certified answer.`]),
  ];
}

function distributionTable({ distribution }: RiskDocument): Table {
  const rows: [string, number][] =
    distribution === undefined
      ? []
      : [
          ['lowest', distribution.lowest],
          ...distribution.quantiles.map(({ share, value }): [string, number] => [
            `${Math.round(100 * share)} %`,
            value,
          ]),
          ['highest', distribution.highest],
          ['mean', distribution.mean],
          ['standard deviation', distribution.standardDeviation],
          ['standard error of the mean', distribution.standardError],
          ['mean of the worst twentieth', distribution.worstTwentieth],
        ];
  return {
    columns: [
      { head: 'figure', kind: 'text' },
      { head: 'present value', kind: 'money' },
    ],
    rows,
  };
}

function rungsTable({ rungs }: RiskDocument, plant: Plant): Table {
  const { materials } = namesOf(plant);
  return {
    columns: [
      { head: 'material', kind: 'text' },
      { head: 'draws in which it leaves', kind: 'share' },
      { head: 'mass on average', kind: 'mass' },
    ],
    rows: rungs
      .filter(({ share }) => share > 0)
      .map(({ material, share, mass }) => [materials[material] ?? material, share, mass]),
  };
}

/** Why draws have no plan, and how many of them. */
function withoutPlanTable({ withoutPlan }: RiskDocument): Table {
  const { limits, problems, uncertified } = withoutPlan;
  return {
    columns: [
      { head: 'kind', kind: 'text' },
      { head: 'what', kind: 'text' },
      { head: 'draws', kind: 'count' },
    ],
    rows: [
      ...limits.map(({ limit, draws }) => ['infeasible', limit, draws]),
      ...problems.map(({ message, draws }) => ['invalid', message, draws]),
      ...(uncertified === 0 ? [] : [['no certified answer', undefined, uncertified]]),
    ],
  };
}

function drawsTable({ values }: RiskDocument): Table {
  return {
    columns: [
      { head: 'draw', kind: 'count' },
      { head: 'present value', kind: 'money' },
    ],
    rows: values.map((value, i) => [i + 1, value ?? undefined]),
  };
}

function riskChart({ values, distribution, shortfall, seed, title, units }: RiskDocument): string {
  const planned = values.filter((value) => value !== null);
  const at = (share: number) => distribution?.quantiles.find((quantile) => quantile.share === share)?.value;
  const marks = [
    { at: at(0.05), label: '5 %' },
    { at: at(0.5), label: 'median' },
    { at: at(0.95), label: '95 %' },
  ].flatMap(({ at: value, label }) => (value === undefined ? [] : [{ at: value, label }]));
  return distributionChart({
    title: `${title}: present value of the best plan over ${planned.length} draws`,
    description: `Seed ${seed}. How many draws fall where.`,
    xTitle: `Present value (${units.currency})`,
    yTitle: 'Draws',
    values: planned,
    marks,
    ...(shortfall === undefined ? {} : { level: shortfall.level }),
  });
}

import type { ChangedNoun, Firmness, FirmnessKey, PlanChange } from '../../analysis/explain/explanation.js';
import { minorDigits } from '../currency.js';
import { formatFigure, type ReportUnits } from '../figure.js';
import type { Names } from '../names.js';

/** Less than this prints as nothing. */
const SHOWN = 0.05;

/** A price or cost in the user's nouns. */
export function numberWords(key: FirmnessKey, names: Names): string {
  switch (key.kind) {
    case 'outletPrice':
      return `price of ${names.outlets[key.outlet]}${key.tier === 0 ? '' : `, step ${key.tier + 1}`}`;
    case 'contractPrice':
      return `price of ${names.materials[key.material]} in ${names.contracts[key.contract]}`;
    case 'tippingFee':
      return `tipping fee of ${names.feeds[key.feed]}`;
    case 'powerPrice':
      return `power price, ${names.windows[key.window]}`;
    case 'wage':
      return `wage of ${names.crews[key.crew]}`;
    case 'wear':
      return `wear of ${names.steps[key.step]}`;
    case 'disposalCharge':
      return `charge of ${names.disposals[key.disposal]}`;
    case 'demandCharge':
      return 'demand charge';
    case 'outletFreight':
      return `freight to ${names.outlets[key.outlet]}`;
    case 'outletPacking':
      return `packing for ${names.outlets[key.outlet]}`;
    case 'contractFreight':
      return `freight of ${names.materials[key.material]} to ${names.contracts[key.contract]}`;
    case 'contractPacking':
      return `packing of ${names.materials[key.material]} for ${names.contracts[key.contract]}`;
    case 'feedHaulage':
      return `haulage from ${names.feeds[key.feed]}`;
    case 'disposalHaulage':
      return `haulage of ${names.materials[key.material]} to ${names.disposals[key.disposal]}`;
    case 'holdingCost':
      return `holding of ${names.materials[key.material]}`;
    case 'closingValue':
      return `closing value of ${names.materials[key.material]}`;
    case 'shortfallCharge':
      return `charge for months missed of ${names.contracts[key.contract]}`;
    case 'termCharge':
      return `charge for the term missed of ${names.contracts[key.contract]}`;
  }
}

export function firmnessUnit(unit: Firmness['unit'], { mass, currency }: ReportUnits): string {
  const per = {
    'money by mass': mass,
    'money by energy': 'kWh',
    'money by hour': 'person-hour',
    'money by load': 'kW',
  };
  return `${currency}/${per[unit]}`;
}

/** A price or cost, or a move of one, in print with its unit. */
export function numberAmount(amount: number, unit: Firmness['unit'], units: ReportUnits): string {
  const digits = minorDigits(units.currency) + (unit === 'money by energy' ? 2 : 0);
  return `${formatFigure(amount, digits)} ${firmnessUnit(unit, units)}`;
}

/** What changes first, the largest two moves, masses over all months; what nets out moves in time only. */
export function changesWords(changes: readonly PlanChange[], names: Names, units: ReportUnits): string {
  const visible = changes.filter(({ by }) => Math.abs(by) >= SHOWN);
  if (changes.length > 0 && visible.length === 0) return 'work moving between windows or months';
  const said = visible.slice(0, 2).map(({ what, by }) => {
    const amount = `${formatFigure(Math.abs(by), 1)} ${units.mass}`;
    return `${amount} ${by > 0 ? 'more' : 'less'} ${nounWords(what, names)}`;
  });
  return said.join(', ');
}

function nounWords(what: ChangedNoun, names: Names): string {
  switch (what.kind) {
    case 'receive':
      return `from ${names.feeds[what.feed]}`;
    case 'run':
      return `through ${names.steps[what.step]}`;
    case 'sell':
      return `to ${names.outlets[what.outlet]}`;
    case 'deliver':
      return `of ${names.materials[what.material]} to ${names.contracts[what.contract]}`;
    case 'dispose':
      return `of ${names.materials[what.material]} to ${names.disposals[what.disposal]}`;
    case 'stock':
      return `${names.materials[what.material]} in stock over the month ends`;
    case 'missed':
      return `missed of ${names.contracts[what.contract]}`;
  }
}

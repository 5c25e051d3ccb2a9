import { bridgeChart } from '../charts/bridge-chart.js';
import type { JudgedDocument } from '../offer-document.js';

/** From the margin without the offer to that with it. Undefined where the two plans were not asked for. */
export function displacementBridge({ displaced, offer, units }: JudgedDocument): string | undefined {
  if (displaced === undefined) return undefined;
  const { bridge } = displaced;
  return bridgeChart({
    title: `${offer.name}: from the margin without it to the margin with it`,
    description: 'Bars up are gains, bars down are losses; they add up. The table holds the figures.',
    yTitle: `Margin (${units.currency})`,
    from: { name: 'without', value: bridge.from },
    to: { name: 'with', value: bridge.to },
    steps: bridge.effects
      .filter(({ amount }) => amount !== 0)
      .map(({ effect, amount }) => ({ name: effect, amount })),
  });
}

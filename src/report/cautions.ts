/** What no plan on paper replaces; stands under every printed plan. */
export const CAUTIONS: readonly string[] = [
  'A plan on paper is no permit. Tire piles and rubber dust burn and explode, machines maim, air and storage permits and contracts bind: local codes and licensed practice come first.',
  'The figures are as good as the scenario: prices, yields and hours are its own and are not checked against the world.',
];

/** An amount in the scenario's currency: a point before decimals, commas between thousands. */
export function money(amount: number): string {
  const { digits, currency } = document.querySelector<HTMLElement>('[data-plant]')?.dataset ?? {};
  const [whole, decimals] = Math.abs(amount).toFixed(Number(digits)).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return `${amount < 0 ? '-' : ''}${decimals === undefined ? grouped : `${grouped}.${decimals}`} ${currency}`;
}

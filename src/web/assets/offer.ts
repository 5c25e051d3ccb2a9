/** Saves an offer, and signs it: through the API, with the version that was read. */

type Members = Record<string, unknown>;

document.addEventListener('click', (event) => {
  const button = (event.target as Element).closest<HTMLButtonElement>('button[data-do]');
  const place = button?.closest<HTMLElement>('[data-offer]');
  if (button === null || place === null || place === undefined) return;
  const offer = JSON.parse(place.dataset.offer ?? '{}') as Members;
  const scenario = `/scenarios/${place.dataset.scenario}`;
  const status = place.querySelector('[role=status]');
  const say = (text: string) => {
    if (status !== null) status.textContent = text;
  };
  button.disabled = true;
  const work = button.dataset.do === 'sign' ? sign(scenario, offer) : save(scenario, offer);
  void work
    .then(say)
    .catch((error: unknown) => say(error instanceof Error ? error.message : 'That did not work.'))
    .finally(() => {
      button.disabled = false;
    });
});

async function save(scenario: string, offer: Members): Promise<string> {
  const id = offer.id === 'new-offer' ? idFor(String(offer.name)) : String(offer.id);
  const address = `${scenario}/offers/${id}`;
  const known = await fetch(address);
  const precondition: Record<string, string> = known.ok
    ? { 'If-Match': known.headers.get('ETag') ?? '' }
    : { 'If-None-Match': '*' };
  await written(address, { ...offer, id }, precondition);
  location.assign(`${location.pathname}?offer=${id}`);
  return 'Saved.';
}

async function sign(scenario: string, offer: Members): Promise<string> {
  const known = await fetch(scenario);
  const document = (await known.json()) as { contracts?: Members[]; offers?: Members[] };
  const id = offer.id === 'new-offer' ? idFor(String(offer.name)) : String(offer.id);
  const offers = (document.offers ?? []).filter((each) => each.id !== id);
  const contracts = [...(document.contracts ?? []), { ...offer, id }];
  await written(
    scenario,
    { ...document, contracts, offers },
    { 'If-Match': known.headers.get('ETag') ?? '' },
  );
  location.assign(`${scenario}/plan`);
  return 'Signed.';
}

/** @throws Error with what the server says */
async function written(address: string, body: unknown, precondition: Record<string, string>): Promise<void> {
  const response = await fetch(address, {
    method: 'PUT',
    headers: { 'Content-Type': 'application/json', ...precondition },
    body: `${JSON.stringify(body, undefined, 2)}\n`,
  });
  if (response.ok) return;
  const problem = (await response.json()) as { detail?: string; problems?: { message: string }[] };
  const more = (problem.problems ?? []).map(({ message }) => message).join(' ');
  throw new Error(`${problem.detail ?? 'It was not saved.'} ${more}`);
}

/** @example idFor('Fine powder, far away') // 'fine-powder-far-away' */
function idFor(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+|-+$/g, '')
    .slice(0, 40);
  return plain === '' ? 'an-offer' : plain;
}

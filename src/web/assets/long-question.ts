/**
 * Questions that take long: asked as a job, with its progress, and a way to stop it. The page is redrawn with the
 * answer, which the server keeps.
 */
const form = document.querySelector<HTMLFormElement>('form[data-question]');
const result = document.getElementById('result');

form?.addEventListener(
  'submit',
  (event) => {
    event.preventDefault();
    event.stopImmediatePropagation();
    void ask(form).catch(() => form.submit());
  },
  { capture: true },
);

async function ask(asked: HTMLFormElement): Promise<void> {
  const fields = new FormData(asked);
  const options = Object.fromEntries(
    [...fields]
      .filter(([key, value]) => key !== 'what' && value !== '')
      .map(([key, value]) => [key, Number(value)]),
  );
  const response = await fetch(`/${asked.dataset.question}`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Prefer: 'respond-async' },
    body: JSON.stringify({ scenario: asked.dataset.scenario, ...options }),
  });
  const address = `${location.pathname}?${new URLSearchParams([...fields].map(([key, value]) => [key, String(value)]))}`;
  if (response.status !== 202) return location.assign(address);
  const job = response.headers.get('Location') ?? '';
  const { bar, said, stop } = waitingRoom();
  stop.addEventListener('click', () => void fetch(job, { method: 'DELETE' }));
  await follow(job, (done, of) => {
    bar.max = of ?? 1;
    if (of !== undefined) bar.value = done;
    said.textContent = of === undefined ? `${done} done` : `${done} of ${of}`;
  });
  location.assign(address);
}

/** Asks how far the job is until it has ended. */
async function follow(job: string, tell: (done: number, of?: number) => void): Promise<void> {
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, 300));
    const response = await fetch(job);
    if (!response.ok) return;
    const { state, progress } = (await response.json()) as {
      state: string;
      progress?: { done?: number; of?: number };
    };
    if (progress?.done !== undefined) tell(progress.done, progress.of);
    if (state !== 'queued' && state !== 'running') return;
  }
}

function waitingRoom() {
  const bar = document.createElement('progress');
  bar.setAttribute('aria-label', 'How far it is');
  const said = document.createElement('span');
  said.setAttribute('role', 'status');
  const stop = document.createElement('button');
  stop.type = 'button';
  stop.className = 'quiet';
  stop.textContent = 'Stop';
  const place = document.createElement('p');
  place.className = 'bar';
  place.append(bar, said, stop);
  result?.replaceChildren(place);
  return { bar, said, stop };
}

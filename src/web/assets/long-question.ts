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
  stop.addEventListener('click', () => {
    stop.disabled = true;
    said.textContent = 'Stopping …';
    void fetch(job, { method: 'DELETE' });
  });
  const ended = await follow(job, (done, of) => {
    bar.max = of ?? 1;
    if (of !== undefined) bar.value = done;
    if (!stop.disabled) said.textContent = of === undefined ? `${done} done` : `${done} of ${of}`;
  });
  if (ended?.state !== 'cancelled') return location.assign(address);
  if (ended.answer !== undefined) return location.assign(`${address}&job=${ended.id}`);
  said.textContent = 'Stopped before anything was found.';
  bar.remove();
  stop.remove();
}

interface Job {
  readonly id: string;
  readonly state: string;
  readonly progress?: { readonly done?: number; readonly of?: number };
  /** Where its answer is, if there is one. */
  readonly answer?: string;
}

/** Asks how far the job is until it has ended; undefined where it is not kept any more. */
async function follow(address: string, tell: (done: number, of?: number) => void): Promise<Job | undefined> {
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, 300));
    const response = await fetch(address);
    if (!response.ok) return undefined;
    const job = (await response.json()) as Job;
    if (job.progress?.done !== undefined) tell(job.progress.done, job.progress.of);
    if (job.state !== 'queued' && job.state !== 'running') return job;
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

/** A shop that keeps its estimates on its own server, by the events of the sheet: the server is `demo/server.ts`. */
// #region readme
import '../../components/estimate/define.js';
import type { Estimate } from '../../src/index.js';

const BASE = '/documents/estimate/';
const sheet = document.querySelector('baysheet-estimate')!;
/** The ETag of what the sheet was opened with or saved as; null for what the server does not have. */
let tag: string | null = null;

async function open(id: string): Promise<void> {
  const answer = await fetch(BASE + id);
  if (!answer.ok) throw new Error(`It cannot be opened: the server answered ${answer.status}.`);
  tag = answer.headers.get('ETag');
  sheet.estimate = await answer.text();
}

/** False where somebody else has saved it meanwhile; then nothing is changed on the server. */
async function save(estimate: Estimate): Promise<boolean> {
  const answer = await fetch(BASE + estimate.id, {
    method: 'PUT',
    headers: tag === null ? { 'If-None-Match': '*' } : { 'If-Match': tag },
    body: JSON.stringify(estimate),
  });
  if (answer.status === 412) return false;
  if (!answer.ok) throw new Error(`It is not saved: the server answered ${answer.status}. Save it again.`);
  tag = answer.headers.get('ETag');
  return true;
}
// #endregion

const choice = document.querySelector<HTMLSelectElement>('#estimates')!;
const standing = document.querySelector('#standing')!;
const conflict = document.querySelector<HTMLElement>('#conflict')!;

/** The next request is made when the one before is answered: it needs the tag that the answer brings. */
let turn: Promise<unknown> = Promise.resolve();
function inTurn(work: () => Promise<void>): void {
  turn = turn.then(work).catch((fault: Error) => {
    standing.textContent = fault.message;
  });
}

async function openChosen(): Promise<void> {
  await open(choice.value);
  conflict.hidden = true;
  standing.textContent = 'Opened from the server.';
}

async function saveShown(): Promise<void> {
  const isSaved = await save(sheet.estimate!);
  conflict.hidden = isSaved;
  standing.textContent = isSaved ? 'Saved on the server.' : 'Not saved.';
}

async function saveInPlace(): Promise<void> {
  tag = (await fetch(BASE + sheet.estimate!.id, { cache: 'no-store' })).headers.get('ETag');
  await saveShown();
}

/** What the server has; on the first visit the demonstration's estimates are put there. */
async function list(): Promise<{ id: string }[]> {
  const answer = await fetch(BASE);
  if (!answer.ok) throw new Error(`There is no server for documents at ${BASE} (${answer.status}). Start this page with npm start.`);
  const { entries } = (await answer.json()) as { entries: { id: string }[] };
  if (entries.length > 0) return entries;
  for (const name of ['van', 'plenum']) {
    tag = null;
    await save((await (await fetch(`../${name}.estimate.json`)).json()) as Estimate);
  }
  return list();
}

sheet.addEventListener('baysheet-save', (event) => {
  event.preventDefault(); // else the estimate is offered as a file
  inTurn(saveShown);
});
sheet.addEventListener('baysheet-change', (event) => {
  standing.textContent = `Changed and not saved: ${event.detail.what}.`;
});
choice.addEventListener('change', () => inTurn(openChosen));
document.querySelector('#theirs')!.addEventListener('click', () => inTurn(openChosen));
document.querySelector('#mine')!.addEventListener('click', () => inTurn(saveInPlace));
inTurn(async () => {
  choice.replaceChildren(...(await list()).map(({ id }) => new Option(id, id)));
  await openChosen();
});

import { JobForm } from '../../../components/estimate/job-form.js';
import { TeardownPicture } from '../../../components/estimate/teardown-picture.js';
import { TotalsPane } from '../../../components/estimate/totals-pane.js';
import { scenario, type ScenarioName } from './scenarios.js';

customElements.define('baysheet-job', JobForm);
customElements.define('baysheet-totals', TotalsPane);
customElements.define('baysheet-teardown', TeardownPicture);

const job = document.querySelector<JobForm>('baysheet-job')!;
const totals = document.querySelector<TotalsPane>('baysheet-totals')!;
const teardown = document.querySelector<TeardownPicture>('baysheet-teardown')!;

/** What the elements have announced, for the tests to read. */
const heard: { type: string; detail: unknown }[] = [];
for (const type of ['baysheet-job-edit', 'baysheet-pick']) {
  document.addEventListener(type, (event) => heard.push({ type, detail: (event as CustomEvent).detail }));
}

/** Shows one of the scenarios in all three elements. */
async function show(name: ScenarioName): Promise<void> {
  const { estimate, priced, deferral, taxes } = scenario(name);
  Object.assign(job, { estimate, taxes, locale: 'en-US' });
  Object.assign(totals, { priced, deferral, locale: 'en-US' });
  Object.assign(teardown, { priced, locale: 'en-US' });
  await Promise.all([job.updateComplete, totals.updateComplete, teardown.updateComplete]);
}

declare global {
  interface Window {
    panes: {
      readonly show: typeof show;
      readonly scenario: typeof scenario;
      readonly heard: typeof heard;
      readonly job: JobForm;
      readonly totals: TotalsPane;
      readonly teardown: TeardownPicture;
    };
  }
}
window.panes = { show, scenario, heard, job, totals, teardown };
await show('van');
document.documentElement.dataset['ready'] = 'true';

import '../../../components/estimate/define.js';
import type { BaysheetEstimate } from '../../../components/estimate/baysheet-estimate.js';
import type { BenchDocuments } from '../documents.js';

/** What the bench reaches by `window.bench`. */
const bench = {
  /** Milliseconds from each key that ends an entry until the frame after it is on the screen. */
  paints: [] as number[],
  sheet: null as BaysheetEstimate | null,

  /** Puts a sheet with these documents on the page. */
  async show(documents: BenchDocuments): Promise<void> {
    bench.sheet = made(documents);
    document.body.append(bench.sheet);
    await shown(bench.sheet);
  },

  /** Takes the sheet away and puts it back, so many times. */
  async putBack(times: number): Promise<void> {
    for (let i = 0; i < times; i += 1) {
      bench.sheet!.remove();
      await frame();
      document.body.append(bench.sheet!);
      await shown(bench.sheet!);
    }
  },

  /** Makes a sheet, shows it and drops it, so many times. */
  async anew(documents: BenchDocuments, times: number): Promise<void> {
    for (let i = 0; i < times; i += 1) {
      const sheet = made(documents);
      document.body.append(sheet);
      await shown(sheet);
      sheet.remove();
      await frame();
    }
  },
};

function made({ estimate, catalogue, rates }: BenchDocuments): BaysheetEstimate {
  const sheet = document.createElement('baysheet-estimate');
  sheet.catalogue = catalogue as never;
  sheet.rates = rates as never;
  sheet.estimate = estimate as never;
  return sheet;
}

async function shown(sheet: BaysheetEstimate): Promise<void> {
  await sheet.updateComplete;
  await frame();
}

/** A message is delivered after the frame that it is sent from was painted. */
function frame(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    requestAnimationFrame(() => port2.postMessage(null));
  });
}

addEventListener(
  'keydown',
  ({ key }) => {
    if (key !== 'Enter') return;
    const start = performance.now();
    void frame().then(() => bench.paints.push(performance.now() - start));
  },
  { capture: true },
);

declare global {
  interface Window {
    bench: typeof bench;
  }
}
window.bench = bench;

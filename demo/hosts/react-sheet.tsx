// #region readme
import '../../components/estimate/define.js';
import type { BaysheetEstimate, BaysheetEventMap } from '../../components/estimate/define.js';
import type { Catalogue, Estimate, PricedTotals, Rates } from '../../src/index.js';

type Handlers = { [Name in keyof BaysheetEventMap as `on${Name}`]?: (event: BaysheetEventMap[Name]) => void };
type Properties = Partial<Pick<BaysheetEstimate, 'catalogue' | 'rates' | 'estimate' | 'shop' | 'storage'>>;
declare module 'react' {
  namespace JSX {
    interface IntrinsicElements {
      'baysheet-estimate': HTMLAttributes<BaysheetEstimate> & Handlers & Properties;
    }
  }
}

interface SheetProps {
  catalogue: Catalogue;
  rates: Rates;
  /** May be what `onChange` gave last: a sheet that has it already stays as it is, also where somebody is typing. */
  estimate: Estimate;
  onChange(estimate: Estimate, totals: PricedTotals): void;
  onSave(estimate: Estimate): void;
}

export function Sheet({ catalogue, rates, estimate, onChange, onSave }: SheetProps) {
  return (
    <baysheet-estimate
      catalogue={catalogue}
      rates={rates}
      estimate={estimate}
      onbaysheet-change={({ detail }) => onChange(detail.estimate, detail.totals)}
      onbaysheet-save={(event) => {
        event.preventDefault(); // else the estimate is offered as a file
        onSave(event.detail.estimate);
      }}
    />
  );
}
// #endregion

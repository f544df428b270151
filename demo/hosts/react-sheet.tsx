import '../../components/estimate/define.js';
import type { Catalogue, Estimate, PricedTotals, Rates } from '../../src/index.js';

interface SheetProps {
  catalogue: Catalogue;
  rates: Rates;
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

/** What React's types do not know of the sheet. */
import type { BaysheetEstimate, BaysheetEventMap } from '../../components/estimate/define.js';

type Handlers = { [Name in keyof BaysheetEventMap as `on${Name}`]?: (event: BaysheetEventMap[Name]) => void };
type Properties = Partial<Pick<BaysheetEstimate, 'catalogue' | 'rates' | 'estimate' | 'shop' | 'storage'>>;

declare module 'react' {
  namespace JSX {
    interface IntrinsicElements {
      'baysheet-estimate': HTMLAttributes<BaysheetEstimate> & Handlers & Properties;
    }
  }
}

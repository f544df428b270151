import { DECIMAL_PATTERN, type Decimal, type DecimalString, printPlain } from '../number/decimal.js';
import { ShareFault } from './fault.js';

/** A computed price as a document holds it. @throws ShareFault where it has more digits than that */
export function copyFigure(value: Decimal): DecimalString {
  const figure = printPlain(value);
  if (DECIMAL_PATTERN.test(figure)) return figure;
  throw new ShareFault('figure', `The price ${figure} has more digits than an estimate can hold. Check the costs and the mark-up.`);
}

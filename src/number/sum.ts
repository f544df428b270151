import { type Decimal, decimal, HUNDRED } from './decimal.js';
import type { ReadFigure } from './locale-parse.js';

type Result = { readonly ok: true; readonly value: Decimal } | { readonly ok: false; readonly reason: string };

const LONGEST = 300;

/** A fault inside the sum; it never leaves this file. */
class SumFault extends Error {}

/**
 * A plain sum as one types it into a cell: `2*14.95+3`, with `+ - * / ( ) %`, worked out in decimal.
 *
 * @param readNumber reads one number in the writing of the locale
 */
export function evaluateSum(text: string, readNumber: (text: string) => ReadFigure): Result {
  if (text.length > LONGEST) return { ok: false, reason: `The sum is too long: ${LONGEST} characters is the most.` };
  try {
    return { ok: true, value: new Sum(tokens(text), readNumber).whole() };
  } catch (fault) {
    if (fault instanceof SumFault) return { ok: false, reason: fault.message };
    throw fault;
  }
}

function tokens(text: string): string[] {
  const found = text
    .replace(/[×·]/g, '*')
    .replace(/[÷:]/g, '/')
    .replace(/[\u2212\u2013]/g, '-')
    .match(/[\d.,'’]+|[-+*/()%]|\S/g);
  if (found === null) throw new SumFault('The sum is empty. Write one, like =2*14.95+3.');
  return found;
}

/** Reads a sum from its tokens: sums of products of signed numbers, brackets and percentages. */
class Sum {
  private at = 0;

  constructor(
    private readonly tokens: readonly string[],
    private readonly readNumber: (text: string) => ReadFigure,
  ) {}

  whole(): Decimal {
    const value = this.sum();
    if (this.at < this.tokens.length) throw new SumFault(`The sum cannot be read from "${this.tokens[this.at]}" on.`);
    return value;
  }

  private sum(): Decimal {
    let value = this.product();
    for (;;) {
      if (this.take('+')) value = value.plus(this.product());
      else if (this.take('-')) value = value.minus(this.product());
      else return value;
    }
  }

  private product(): Decimal {
    let value = this.factor();
    for (;;) {
      if (this.take('*')) value = value.times(this.factor());
      else if (this.take('/')) value = divide(value, this.factor());
      else return value;
    }
  }

  private factor(): Decimal {
    if (this.take('-')) return this.factor().neg();
    if (this.take('+')) return this.factor();
    let value = this.take('(') ? this.bracket() : this.number();
    while (this.take('%')) value = value.div(HUNDRED);
    return value;
  }

  private bracket(): Decimal {
    const value = this.sum();
    if (!this.take(')')) throw new SumFault('A bracket is not closed. Add ")".');
    return value;
  }

  private number(): Decimal {
    const token = this.tokens[this.at];
    if (token === undefined) throw new SumFault('The sum stops in the middle. A number is missing at its end.');
    const read = this.readNumber(token);
    if (!read.ok) throw new SumFault(/\d/.test(token) ? read.reason : `A number is missing before "${token}".`);
    this.at += 1;
    return decimal(read.value);
  }

  private take(token: string): boolean {
    if (this.tokens[this.at] !== token) return false;
    this.at += 1;
    return true;
  }
}

function divide(value: Decimal, by: Decimal): Decimal {
  if (by.isZero()) throw new SumFault('The sum divides by zero.');
  return value.div(by);
}

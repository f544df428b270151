import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundStep, scaleFor } from '../../../components/rates/plots/scale.js';
import { decimal } from '../../../src/number/decimal.js';

describe('a scale of a picture', () => {
  it('begins and ends on round figures with ticks between', () => {
    expect(scaleFor(['0', '93.4'], 5)).toMatchObject({ from: '0', to: '100', ticks: ['0', '20', '40', '60', '80', '100'] });
    expect(scaleFor(['-3.10', '4.2'], 4)).toMatchObject({ from: '-4', to: '6', ticks: ['-4', '-2', '0', '2', '4', '6'] });
    expect(scaleFor(['0', '0.07'], 4).ticks).toEqual(['0', '0.02', '0.04', '0.06', '0.08']);
  });

  it('has a length where there is only one figure, or none', () => {
    expect(scaleFor(['250'])).toMatchObject({ from: '0', to: '500' });
    expect(scaleFor(['0']).at('1')).toBe(1);
    expect(scaleFor([]).ticks.length).toBeGreaterThan(1);
  });

  it('places figures between its ends', () => {
    const scale = scaleFor(['100', '200'], 5);
    expect([scale.at('100'), scale.at('150'), scale.at('200'), scale.at('300')]).toEqual([0, 0.5, 1, 2]);
  });

  it('holds whatever it is made for, with few ticks evenly apart', () => {
    const figure = fc
      .tuple(fc.integer({ min: -10_000_000, max: 10_000_000 }), fc.constantFrom('1', '0.01', '1000'))
      .map(([n, by]) => decimal(String(n)).times(by).toFixed());
    fc.assert(
      fc.property(fc.array(figure, { minLength: 1, maxLength: 8 }), fc.integer({ min: 2, max: 9 }), (figures, about) => {
        const { at, ticks, from, to } = scaleFor(figures, about);
        for (const each of figures) {
          expect(at(each)).toBeGreaterThanOrEqual(0);
          expect(at(each)).toBeLessThanOrEqual(1);
        }
        expect(ticks[0]).toBe(from);
        expect(ticks.at(-1)).toBe(to);
        expect(ticks.length).toBeLessThanOrEqual(about + 3);
        const steps = ticks.slice(1).map((tick, i) => decimal(tick).minus(decimal(ticks[i]!)).toFixed());
        expect(new Set(steps).size).toBe(1);
        expect(steps[0]).toMatch(/^(0\.0*)?[125]0*$/);
      }),
    );
  });

  it('steps are 1, 2 or 5 times a power of ten', () => {
    expect(['0.011', '0.02', '3', '5', '5.1', '1000'].map((least) => roundStep(decimal(least)).toFixed())).toEqual([
      '0.02',
      '0.02',
      '5',
      '5',
      '10',
      '1000',
    ]);
  });
});

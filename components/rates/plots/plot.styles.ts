import { css } from 'lit';

/** What our pictures look like on the screen, in forced colours and on paper. After `baseStyles` and before `printStyles`. */
export const plotStyles = css`
  .plot {
    padding: 2rem 0.75rem 3.25rem var(--plot-start, 4.5rem);
  }

  /* Without figures at the side. */
  .plot.flush {
    padding-inline-start: 0;
  }

  .plot svg {
    overflow: visible;
  }

  .plot .field {
    display: block;
    width: 100%;
    height: var(--plot-height, 14rem);
    font-size: 0.9em;
  }

  .plot .field svg {
    overflow: hidden;
  }

  .plot text {
    fill: var(--_ink-quiet);
    font-variant-numeric: tabular-nums lining-nums;
  }

  .plot .title {
    fill: var(--_ink);
  }

  .plot .middle {
    text-anchor: middle;
  }

  .plot .end {
    text-anchor: end;
  }

  .plot .grid {
    stroke: var(--_rule);
  }

  .plot .axis,
  .plot .zero {
    stroke: var(--_rule-strong);
  }

  .plot .zero {
    stroke-dasharray: 3 3;
  }

  .plot .bar {
    fill: var(--_accent);
    stroke: var(--_paper);
  }

  .plot .bar.less {
    fill: var(--_paper);
    stroke: var(--_accent);
  }

  .plot .curve {
    fill: none;
    stroke: var(--_accent);
    stroke-width: 2;
    vector-effect: non-scaling-stroke;
  }

  .plot .curve.target {
    stroke: var(--_ink-quiet);
    stroke-width: 1;
    stroke-dasharray: 5 4;
  }

  .plot .whisker,
  .plot .median {
    stroke: var(--_ink);
  }

  .plot .median {
    stroke-width: 2;
  }

  .plot .box {
    fill: var(--_accent-wash);
    stroke: var(--_accent);
  }

  .plot .field .book {
    overflow: visible;
  }

  .plot .book path {
    fill: var(--_ink);
    stroke: var(--_paper);
  }

  @media print {
    .plot {
      break-inside: avoid;
    }

    /* Grounds are left out by many printers; outlines are not. */
    .plot .bar {
      print-color-adjust: exact;
      stroke: var(--_ink);
    }
  }
`;

import { css } from 'lit';

/** The look of the teardown picture: a hatched workshop drawing in ink, with the one accent where an hour is charged. */
export const pictureStyles = css`
  :host {
    container-type: inline-size;
  }

  .frame {
    display: grid;
    grid-template-columns: minmax(8.5em, 17em) minmax(0, 1fr);
  }

  .scroller {
    overflow-x: auto;
    overflow-y: hidden;
    padding-inline: 0.75em 0.25em;
  }

  /* Titles of the rows */
  .labels {
    border-block-end: 1px solid var(--_rule);
    border-inline-end: 1px solid var(--_rule-strong);
  }

  .labels li {
    display: flex;
    flex-direction: column;
    justify-content: center;
    padding-inline: 0.5em 0.75em;
    border-block-start: 1px solid var(--_rule);
    border-inline-start: 3px solid transparent;
    line-height: 1.2;
    cursor: pointer;
  }

  .labels li:hover,
  .labels .touched {
    border-inline-start-color: var(--_accent);
    background: var(--_accent-wash);
  }

  .labels .title {
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
  }

  .labels .facts {
    overflow: hidden;
    color: var(--_ink-quiet);
    font-size: 0.9em;
    font-variant-numeric: tabular-nums;
    text-overflow: ellipsis;
    white-space: nowrap;
  }

  .labels .included {
    flex-direction: row;
    gap: 0.5em;
    align-items: center;
    justify-content: flex-start;
    padding-inline-start: 1.5em;
    border-block-start-style: dotted;
    font-size: 1em;
  }

  .labels .included .title {
    flex: 0 1 auto;
    font-size: 0.9em;
  }

  .labels .included .facts {
    flex: none;
  }

  /* The drawing */
  .drawing {
    display: block;
    width: 100%;
    overflow: visible;
  }

  text {
    fill: var(--_ink);
    font-family: var(--_font);
  }

  .turned {
    overflow: visible;
  }

  .middle {
    text-anchor: middle;
  }

  .small {
    fill: var(--_ink-quiet);
    font-size: 0.87em;
  }

  .figure {
    text-anchor: start;
    font-variant-numeric: tabular-nums;
  }

  .heading,
  .mark {
    font-weight: 650;
  }

  .halo {
    paint-order: stroke;
    fill: var(--_ink);
    stroke: var(--_paper);
    stroke-width: 4px;
    stroke-linejoin: round;
  }

  .on-accent {
    fill: var(--_accent-ink);
  }

  .tick {
    stroke: var(--_rule);
    stroke-dasharray: 1 4;
  }

  .row-rule {
    stroke: var(--_rule);
  }

  .axis {
    stroke: var(--_ink);
    stroke-width: 1.5px;
  }

  .wood,
  .single,
  .own {
    fill: var(--_paper);
  }

  .single,
  .own {
    stroke: var(--_ink);
    stroke-width: 1.25px;
  }

  .hatch {
    stroke: var(--_rule-strong);
    stroke-width: 1px;
  }

  .edge,
  .edge-hatched {
    stroke: var(--_ink);
    stroke-width: 1.25px;
  }

  .edge {
    fill: none;
  }

  .carried {
    fill: var(--_accent);
    stroke: var(--_ink);
    stroke-width: 2.5px;
  }

  .passing {
    stroke: var(--_ink);
    stroke-width: 1px;
    stroke-dasharray: 2 3;
  }

  .spared {
    fill: none;
    stroke: var(--_ink);
    stroke-dasharray: 4 3;
  }

  .joint {
    stroke: var(--_ink);
    stroke-width: 1.5px;
  }

  .butterfly {
    fill: var(--_ink);
  }

  .stop {
    cursor: pointer;
    outline: none;
  }

  .stop:hover :is(.edge, .own, .single, .spared, .carried) {
    stroke: var(--_accent);
    stroke-width: 2.5px;
  }

  .stop:focus-visible {
    outline: var(--_focus);
    outline-offset: 2px;
  }

  .stop:focus-visible :is(.edge, .own, .single, .spared, .carried, .joint) {
    stroke: var(--_accent);
    stroke-width: 3.5px;
  }

  /* Below it */
  .reading {
    min-height: 1.9em;
    padding-block-start: 0.5em;
    color: var(--_ink-quiet);
  }

  .key {
    display: grid;
    gap: 0.75em;
    margin-block-start: 0.5em;
    padding-block-end: 0.5em;
  }

  .marks {
    columns: 19em auto;
    column-gap: 2em;
  }

  .marks li {
    display: grid;
    grid-template-columns: 1.75em 1fr auto;
    gap: 0.25em;
    break-inside: avoid;
  }

  .signs {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25em 1.5em;
    color: var(--_ink-quiet);
  }

  .signs li {
    display: flex;
    gap: 0.5em;
    align-items: center;
  }

  .sample {
    flex: none;
    width: 1.75em;
    height: 1em;
    overflow: visible;
  }

  .tables {
    display: grid;
    gap: 1.25em;
    padding-block: 0.5em;
    overflow-x: auto;
  }

  @container (max-width: 34rem) {
    .frame {
      grid-template-columns: 8.5em minmax(0, 1fr);
    }

    .labels li {
      padding-inline: 0.25em 0.5em;
    }

    .labels .title {
      display: -webkit-box;
      -webkit-box-orient: vertical;
      -webkit-line-clamp: 2;
      line-clamp: 2;
      font-size: 0.9em;
      line-height: 1.15;
      white-space: normal;
    }

    .labels .carries {
      display: none;
    }

    .labels .included {
      gap: 0;
      padding-inline-start: 0.5em;
    }

    .labels .included .title::before {
      content: '↳ ';
    }

    .labels .included .facts {
      display: none;
    }

    .labels .included .title {
      -webkit-line-clamp: 1;
      line-clamp: 1;
    }
  }

  @media print {
    .scroller {
      overflow: visible;
    }

    .drawing {
      min-width: 0 !important;
    }
  }

  @media (forced-colors: active) {
    .carried {
      fill: CanvasText;
    }

    .on-accent {
      fill: Canvas;
    }

    .labels li {
      border-inline-start-color: Canvas;
    }

    .labels :is(li:hover, .touched) {
      border-inline-start-color: Highlight;
    }
  }
`;

import { css } from 'lit';

/** The look of the head of the job sheet: a grid of twelve columns that falls to two and to one. */
export const jobStyles = css`
  :host {
    container-type: inline-size;
  }

  summary {
    display: flex;
    flex-wrap: wrap;
    gap: 0 1rem;
    align-items: baseline;
    min-height: 2.25rem;
    padding-block: 0.375rem;
  }

  summary::before {
    flex: none;
    align-self: center;
    width: 0.5rem;
    height: 0.5rem;
    margin-inline: 0.125rem -0.375rem;
    border: solid var(--_ink-quiet);
    border-width: 0 2px 2px 0;
    content: '';
    transform: rotate(-45deg);
  }

  details[open] > summary::before {
    transform: rotate(45deg);
  }

  summary::-webkit-details-marker {
    display: none;
  }

  .number {
    font-size: 1.15em;
    font-weight: 650;
  }

  .fields {
    display: grid;
    grid-template-columns: repeat(12, minmax(0, 1fr));
    gap: 0.75rem 1rem;
    padding-block: 0.5rem 0.75rem;
  }

  .field {
    grid-column: span 3;
  }

  .field.wide {
    grid-column: span 6;
  }

  .field.whole {
    grid-column: 1 / -1;
  }

  .field > :is(label, .label) {
    display: block;
    font-size: 0.9em;
  }

  .facts {
    display: flex;
    gap: 1.5rem;
    font-variant-numeric: tabular-nums;
  }

  .facts .label {
    display: block;
    font-size: 0.9em;
  }

  .facts .value {
    line-height: 2rem;
  }

  .with-unit {
    display: flex;
    gap: 0.25rem;
  }

  .with-unit select {
    width: auto;
  }

  .fault {
    display: block;
    font-size: 0.9em;
    line-height: 1.3;
  }

  fieldset {
    min-width: 0;
    margin: 0;
    padding: 0;
    border: 0;
  }

  .choices {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 1.5rem;
    padding-block-start: 0.25rem;
  }

  legend {
    padding: 0;
    color: var(--_ink-quiet);
    font-size: 0.9em;
  }

  .choice {
    display: flex;
    gap: 0.5rem;
    align-items: center;
    color: var(--_ink);
  }

  @container (max-width: 40rem) {
    .field,
    .field.wide {
      grid-column: span 6;
    }
  }

  @container (max-width: 24rem) {
    .field,
    .field.wide {
      grid-column: 1 / -1;
    }
  }
`;

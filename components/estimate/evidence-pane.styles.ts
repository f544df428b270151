import { css } from 'lit';

export const evidenceStyles = css`
  details {
    padding-inline: 0.875rem;
    background: var(--_paper);
    border: 1px solid var(--_rule);
    border-block-start: 0;
  }

  .pane {
    display: grid;
    gap: 0.75rem;
    padding-block: 0.25rem 0.875rem;
  }

  .over {
    outline: var(--_focus);
  }

  .entries {
    display: grid;
    gap: 0.875rem;
  }

  .entry {
    display: grid;
    grid-template-columns: 8rem minmax(0, 1fr);
    gap: 0.5rem 1rem;
    padding-block-start: 0.875rem;
    border-block-start: 1px solid var(--_rule);
  }

  .entry.bare {
    grid-template-columns: minmax(0, 1fr);
  }

  .fields {
    grid-template-columns: repeat(auto-fit, minmax(min(11rem, 100%), 1fr));
  }

  .thumb {
    display: grid;
    width: 100%;
    min-height: 6rem;
    padding: 0;
    place-items: center;
  }

  .thumb img {
    max-width: 100%;
    max-height: 8rem;
  }

  .entry.large {
    grid-template-columns: minmax(0, 1fr);
  }

  .large .thumb img {
    max-height: 40rem;
  }

  .lost {
    padding: 0.5rem;
    border: 1px dashed var(--_rule-strong);
    font-size: 0.9em;
  }

  @media not (any-pointer: coarse) {
    .camera {
      display: none;
    }
  }

  @container (max-width: 30rem) {
    .entry {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;

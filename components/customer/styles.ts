import { css } from 'lit';
import { printStyles } from '../look/print.styles.js';
import { tokens } from '../look/tokens.js';

/**
 * A well-set job sheet for the hand: one column at 320 px, targets of at least 44 px where answers are given, ink on
 * paper, one accent. Urgency is said in words and set heavier, never coloured.
 *
 * A page's own rules for an element win over `:host`, so what must hold is held with `!important`.
 */
export const customerStyles = [
  tokens,
  css`
    :host {
      --_text-size: var(--baysheet-text-size, 1rem);
      display: block;
      container-type: inline-size;
      box-sizing: border-box !important;
      background: var(--_ground);
      color: var(--_ink) !important;
      font: var(--_text-size) / 1.45 var(--_font) !important;
      letter-spacing: normal !important;
      text-align: start !important;
      text-indent: 0 !important;
      text-transform: none !important;
      white-space: normal !important;
      word-spacing: normal !important;
      overflow-wrap: anywhere;
    }

    :host([hidden]) {
      display: none !important;
    }

    *,
    *::before,
    *::after {
      box-sizing: border-box;
    }

    h2, h3, h4, p, ul, dl, dd, fieldset {
      margin: 0;
      padding: 0;
    }

    ul {
      list-style: none;
    }

    :focus-visible {
      outline: 3px solid var(--_accent);
      outline-offset: 2px;
    }

    h2[tabindex]:focus-visible {
      outline: none;
    }

    h2, h3, h4, strong {
      font-weight: 650;
      line-height: 1.25;
    }

    h2 {
      font-size: 1.5em;
    }

    h3 {
      margin-block-end: 0.75rem;
      padding-block-start: 0.375rem;
      border-block-start: 3px solid var(--_ink);
      font-size: 1.25em;
    }

    h4 {
      font-size: 1.0625em;
    }

    a {
      color: var(--_accent);
    }

    s {
      text-decoration-thickness: 1.5px;
    }

    .touch {
      display: inline-block;
      min-block-size: 2.75rem;
      padding-block: 0.625rem;
      margin-inline-end: 1rem;
    }

    .quiet, dt, .note {
      color: var(--_ink-quiet);
    }

    .quiet, .note {
      font-size: 0.9em;
      line-height: 1.4;
    }

    .figure {
      font-variant-numeric: tabular-nums lining-nums;
      text-align: end;
      white-space: nowrap;
    }

    .unseen {
      position: absolute;
      inline-size: 1px;
      block-size: 1px;
      margin: -1px;
      overflow: hidden;
      clip-path: inset(50%);
      white-space: nowrap;
    }

    /* The frame */
    .sheet {
      display: flex;
      flex-direction: column;
      gap: 1.75rem;
      max-inline-size: 44rem;
      margin-inline: auto;
      padding: 0.75rem 0.75rem 0;
    }

    .languages {
      display: flex;
      justify-content: flex-end;
      gap: 0.25rem;
      margin-block-end: -1.25rem;
    }

    .languages button {
      min-inline-size: 2.75rem;
      padding: 0.25rem 0.5rem;
      border-color: transparent;
      background: none;
      font-size: 0.9em;
    }

    .languages [aria-pressed='true'] {
      border-block-end: 2px solid var(--_accent);
      border-radius: 0;
      font-weight: 650;
    }

    .main, .side, .confirm, .done, form {
      display: flex;
      flex-direction: column;
      gap: 1.75rem;
      min-inline-size: 0;
    }

    form, .done {
      gap: 0.875rem;
    }

    .shop {
      margin-block-end: 1rem;
      padding-block-end: 0.25rem;
      border-block-end: 1px solid var(--_rule-strong);
    }

    .shop-name {
      font-size: 1.0625em;
      font-weight: 650;
    }

    .job {
      display: grid;
      gap: 0.375rem 1rem;
      margin-block-start: 0.875rem;
    }

    .job > div {
      display: grid;
      grid-template-columns: 6.5rem 1fr;
      gap: 0.5rem;
    }

    /* Findings */
    .group {
      margin-block-end: 1.25rem;
    }

    .group > ul > li {
      padding-block: 0.625rem;
      border-block-start: 1px solid var(--_rule);
    }

    .urgency {
      margin-block-end: 0.375rem;
      font-size: 0.9375em;
      font-weight: 650;
      line-height: 1.4;
    }

    .urgency span {
      display: inline-block;
      padding: 0.0625rem 0.5rem;
      border: 1px solid var(--_rule-strong);
    }

    .urgency.now span {
      border: 2px solid var(--_ink);
    }

    .urgency.unsafe span {
      border: 2px solid var(--_ink);
      background: var(--_ink);
      color: var(--_paper);
    }

    .finding-title {
      font-weight: 650;
    }

    .seen {
      margin-block-start: 0.25rem;
      padding-inline-start: 0.75rem;
      border-inline-start: 2px solid var(--_rule);
      color: var(--_ink-quiet);
      font-size: 0.9em;
    }

    .photo {
      display: block;
      max-inline-size: 100%;
      margin-block-start: 0.5rem;
    }

    .caution {
      padding: 0.5rem 0.75rem;
      margin-block: 0.5rem;
      border: 2px solid var(--_ink);
      background: var(--_paper);
    }

    .caution .touch {
      display: block;
      font-weight: 650;
    }

    /* Lines */
    .line {
      margin-block-end: 1rem;
      padding: 0.875rem 0.75rem;
      border: 1px solid var(--_rule);
      border-block-start: 2px solid var(--_rule-strong);
      background: var(--_paper);
    }

    .line.left .line-title, .line.left .items {
      color: var(--_ink-quiet);
    }

    table {
      inline-size: 100%;
      border-collapse: collapse;
    }

    th, td {
      padding: 0.3125rem 0;
      font-weight: inherit;
      text-align: start;
      vertical-align: baseline;
    }

    td.figure {
      padding-inline-start: 0.75rem;
    }

    .items {
      margin-block: 0.5rem;
    }

    .totals tr, .items > li {
      border-block-start: 1px solid var(--_rule);
    }

    .items li, .declined li, .answered li, .saved {
      display: flex;
      flex-wrap: wrap;
      justify-content: space-between;
      gap: 0 0.75rem;
    }

    .items > li {
      padding-block: 0.3125rem;
    }

    .items .note {
      inline-size: 100%;
    }

    .items .note li, .declined li, .answered li {
      flex-wrap: nowrap;
    }

    .items .note li {
      padding-block: 0.0625rem;
    }

    .items .sum {
      border-block-start-color: var(--_ink);
      font-weight: 650;
    }

    .note {
      display: block;
    }

    .when {
      margin-block: 0.25rem 0.75rem;
      padding: 0.5rem 0.75rem;
      border-inline-start: 4px solid var(--_accent);
      background: var(--_accent-wash);
    }

    .when > div {
      display: flex;
      flex-wrap: wrap;
      justify-content: space-between;
      gap: 0 0.75rem;
    }

    .when dt {
      color: var(--_ink);
    }

    .when dd.figure {
      margin-inline-start: auto;
    }

    .number {
      white-space: nowrap;
    }

    .when .why {
      margin-block-start: 0.25rem;
      font-size: 0.9375em;
    }

    .answer {
      display: grid;
      grid-template-columns: repeat(3, minmax(0, 1fr));
      border: 0;
      margin-block: 0.75rem 0.25rem;
    }

    .answer label {
      display: flex;
      flex-direction: column;
      align-items: center;
      justify-content: center;
      gap: 0.25rem;
      min-block-size: 3.5rem;
      padding: 0.375rem 0.25rem;
      margin-inline-start: -1px;
      border: 1px solid var(--_rule-strong);
      background: var(--_paper);
      font-weight: 650;
      text-align: center;
      cursor: pointer;
    }

    .answer label.chosen {
      z-index: 1;
      border-color: var(--_accent);
      background: var(--_accent-wash);
      box-shadow: inset 0 0 0 2px var(--_accent);
    }

    .answer label:focus-within {
      z-index: 2;
    }

    input[type='radio'], input[type='checkbox'] {
      flex: none;
      inline-size: 1.375rem;
      block-size: 1.375rem;
      margin: 0;
      accent-color: var(--_accent);
    }

    input, .answer label, button, a {
      scroll-margin-block: 1rem 7rem;
    }

    /* Totals */
    .totals, .budget {
      padding: 0 0.75rem 0.75rem;
      background: var(--_paper);
      border: 1px solid var(--_rule);
      border-block-start: 3px solid var(--_ink);
    }

    .totals h3, .budget h3 {
      border-block-start: 0;
    }

    .totals tbody tr:first-child {
      border-block-start: 0;
    }

    .totals .ruled {
      border-block-start-color: var(--_rule-strong);
    }

    .totals .total {
      border-block-start: 2px solid var(--_ink);
      font-size: 1.25em;
      font-weight: 650;
    }

    .declined, .saved {
      margin-block-start: 0.75rem;
      padding-block-start: 0.5rem;
      border-block-start: 1px solid var(--_rule-strong);
    }

    .declined li, .answered li {
      padding-block: 0.25rem;
      border-block-start: 1px solid var(--_rule);
    }

    .declined p {
      margin-block-end: 0.25rem;
      color: var(--_ink-quiet);
    }

    .saved > .figure {
      color: var(--_accent);
      font-size: 1.125em;
      font-weight: 650;
    }

    .plain li {
      padding-inline-start: 0.75rem;
      border-inline-start: 2px solid var(--_rule-strong);
      margin-block: 0.25rem;
    }

    .confirm h3 + .answered {
      margin-block: -1.75rem 0;
    }

    .done h3 + .answered {
      margin-block: -0.875rem 0;
    }

    .proposal {
      display: flex;
      flex-direction: column;
      gap: 0.625rem;
      margin-block-start: 0.875rem;
      padding-block-start: 0.75rem;
      border-block-start: 1px solid var(--_rule-strong);
    }

    /* Buttons and fields */
    button, a.button {
      display: inline-flex;
      align-items: center;
      justify-content: center;
      min-block-size: 2.75rem;
      padding: 0.375rem 1rem;
      border: 1px solid var(--_rule-strong);
      border-radius: var(--_radius);
      background: var(--_paper);
      color: inherit;
      font: inherit;
      line-height: 1.25;
      text-align: center;
      text-decoration: none;
      cursor: pointer;
    }

    button:hover, a.button:hover {
      border-color: var(--_accent);
    }

    button.main {
      border-color: var(--_accent);
      background: var(--_accent);
      color: var(--_accent-ink);
      font-weight: 650;
    }

    button:disabled {
      border-color: var(--_rule);
      background: var(--_ground);
      color: var(--_ink-quiet);
      cursor: default;
    }

    .buttons {
      display: flex;
      flex-wrap: wrap;
      gap: 0.5rem;
    }

    .buttons > * {
      flex: 1 1 auto;
    }

    .field {
      display: grid;
      gap: 0.25rem;
    }

    input:not([type='radio'], [type='checkbox']), textarea {
      inline-size: 100%;
      min-block-size: 2.75rem;
      padding: 0.375rem 0.625rem;
      border: 1px solid var(--_rule-strong);
      border-radius: var(--_radius);
      background: var(--_paper);
      color: var(--_ink);
      font: inherit;
    }

    [aria-invalid='true'] {
      outline: 2px solid var(--_fault);
    }

    textarea {
      font-family: ui-monospace, 'Liberation Mono', monospace;
      font-size: 0.8125em;
      line-height: 1.4;
    }

    .fault {
      color: var(--_fault);
      font-weight: 650;
    }

    .agree {
      display: flex;
      gap: 0.75rem;
      padding: 0.75rem;
      border: 2px solid var(--_ink);
      background: var(--_paper);
    }

    .qr {
      display: block;
      inline-size: min(100%, 22rem);
      margin-block: 0.5rem;
    }

    .ways {
      display: grid;
      gap: 0.625rem;
    }

    .terms {
      padding-block: 0.75rem 1.5rem;
      border-block-start: 1px solid var(--_rule-strong);
      white-space: pre-line;
    }

    /* The total follows the thumb */
    .bar {
      position: sticky;
      inset-block-end: 0;
      z-index: 3;
      display: flex;
      align-items: center;
      justify-content: space-between;
      gap: 0.75rem;
      margin-inline: -0.75rem;
      padding: 0.5rem 0.75rem max(0.5rem, env(safe-area-inset-bottom));
      border-block-start: 2px solid var(--_ink);
      background: var(--_paper);
    }

    .bar button {
      flex: none;
      overflow-wrap: normal;
    }

    .bar .sum {
      display: block;
      font-size: 1.1875em;
      font-weight: 650;
      line-height: 1.2;
    }

    .bar .quiet, .bar .fault {
      display: block;
      font-size: 0.875em;
    }

    @container (inline-size >= 30rem) {
      .answer label {
        flex-direction: row;
        gap: 0.5rem;
        min-block-size: 2.75rem;
      }

      .line, .totals, .budget {
        padding-inline: 1.125rem;
      }

      .buttons > * {
        flex: 0 1 auto;
      }
    }

    @container (inline-size >= 62rem) {
      .sheet {
        max-inline-size: 72rem;
        padding-inline: 1.5rem;
      }

      .read {
        display: grid;
        grid-template-columns: minmax(0, 1fr) 22rem;
        gap: 2rem;
        align-items: start;
      }

      .side {
        position: sticky;
        inset-block-start: 1rem;
        max-block-size: calc(100vh - 7rem);
        overflow: auto;
      }

      .confirm, .done {
        max-inline-size: 44rem;
        inline-size: 100%;
        margin-inline: auto;
      }

      .bar {
        margin-inline: -1.5rem;
        padding-inline: 1.5rem;
      }
    }

    @media (forced-colors: active) {
      :host {
        --_ink: CanvasText;
        --_ink-quiet: CanvasText;
        --_paper: Canvas;
        --_ground: Canvas;
        --_rule: CanvasText;
        --_rule-strong: CanvasText;
        --_accent: Highlight;
        --_accent-ink: HighlightText;
        --_accent-wash: Canvas;
        --_fault: CanvasText;
      }

      .answer label.chosen {
        outline: 3px solid Highlight;
        outline-offset: -3px;
      }
    }
  `,
  printStyles,
  css`
    @media print {
      :host {
        container-type: normal;
        background: none;
      }

      .sheet, .main, .side, .confirm, .done, form, .read {
        display: block;
        max-inline-size: none;
        padding: 0;
        position: static;
      }

      .bar, .languages {
        display: none;
      }

      section, .confirm > *, .done > *, form > * {
        margin-block-end: 0.75rem;
      }

      .findings, .work {
        columns: 2;
        column-gap: 1.25rem;
      }

      .findings h3, .work h3, .hours {
        column-span: all;
        margin-block-end: 0.375rem;
      }

      .totals, .line, .agree, .caution, .declined, li, .field {
        break-inside: avoid;
      }

      .line, .totals {
        padding: 0.375rem 0.5rem;
        margin-block-end: 0.625rem;
      }

      .totals {
        max-inline-size: 26rem;
        margin-inline-start: auto;
      }

      .group {
        margin-block-end: 0.5rem;
      }

      .group > ul > li, .items > li, th, td {
        padding-block: 0.125rem;
      }

      .items, .answer, .when {
        margin-block: 0.25rem;
      }

      .when {
        padding-block: 0.125rem;
      }

      .urgency span, .urgency.unsafe span {
        padding-block: 0;
        background: none;
        color: var(--_ink);
      }

      .answer label {
        flex-direction: row;
        gap: 0.375rem;
        min-block-size: 0;
        padding: 0.125rem;
        font-weight: normal;
      }

      .answer label.chosen {
        font-weight: 650;
      }

      input[type='radio'] {
        inline-size: 0.875rem;
        block-size: 0.875rem;
        appearance: auto;
      }

      .urgency, h4, .line-title {
        break-after: avoid;
      }

      .touch {
        min-block-size: 0;
        padding-block: 0;
      }
    }
  `,
];

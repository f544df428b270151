import { css } from 'lit';

/**
 * What the grid library needs to lay itself out (after its own style sheet, MIT licence), and the look of a
 * sheet. Goes into the shadow root that holds the sheet, after `tokens`. State is always said by shape too:
 * an underline, a corner, a dot, a line; colour only tints it.
 */
export const sheetStyles = css`
  /* Bones: what the library reckons with. */
  .sheet-frame,
  .sheet-frame * {
    box-sizing: content-box;
  }
  .sheet-frame {
    position: relative;
    direction: ltr;
    touch-action: manipulation;
    font: 400 var(--_text-size) / 1.2 var(--_font);
    font-variant-numeric: tabular-nums lining-nums;
    letter-spacing: normal;
    text-align: start;
    text-indent: 0;
    text-transform: none;
    white-space: normal;
    word-spacing: normal;
    color: var(--_ink);
    background: var(--_paper);
    border-block: 1px solid var(--_rule-strong);
  }
  .sheet-root {
    position: relative;
    overflow: hidden;
  }
  .sheet-frame .handsontable {
    position: relative;
  }
  .sheet-frame .wtHolder {
    overflow: auto;
    outline: none;
    overscroll-behavior-x: contain;
    scroll-padding-top: var(--_row);
  }
  .sheet-frame .ht_clone_top .wtHolder {
    overflow: hidden;
  }
  .sheet-frame .wtHider,
  .sheet-frame .wtSpreader {
    width: 0;
  }
  .sheet-frame table.htCore {
    border-collapse: separate;
    border-spacing: 0;
    margin: 0;
    border: 0;
    table-layout: fixed;
    width: 0;
    max-width: none;
    cursor: default;
    font: inherit;
    color: inherit;
  }
  .sheet-frame th,
  .sheet-frame td {
    position: relative;
    border: 0 solid var(--_rule);
    border-width: 0 1px 1px 0;
    height: calc(var(--_row) - 1px);
    padding: 0 7px;
    line-height: calc(var(--_row) - 1px);
    vertical-align: top;
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
    unicode-bidi: plaintext;
    text-align: start;
    background: var(--_paper);
    background-clip: padding-box;
  }
  .sheet-frame th:last-child,
  .sheet-frame td:last-child {
    border-right-color: transparent;
  }
  .sheet-frame [data-align='end'] {
    text-align: end;
  }
  .sheet-frame .ht_clone_top {
    z-index: 3;
  }
  .sheet-frame .wtBorder {
    position: absolute;
    font-size: 0;
    z-index: 2;
    background-color: var(--_rule-strong) !important;
    pointer-events: none;
  }
  .sheet-frame .wtBorder.hidden {
    display: none;
  }
  .sheet-frame:focus-within .wtBorder {
    background-color: var(--_accent) !important;
  }
  .sheet-frame .wtBorder.corner {
    pointer-events: auto;
    cursor: crosshair;
    border: 1px solid var(--_paper) !important;
    width: 6px !important;
    height: 6px !important;
  }
  .sheet-frame:not(:focus-within) .wtBorder.corner,
  .sheet-editing .wtBorder.corner {
    visibility: hidden;
  }
  .sheet-frame .wtBorder.fill {
    background: repeating-linear-gradient(45deg, var(--_accent) 0 3px, transparent 3px 6px) !important;
  }

  /* Headings */
  .sheet-frame th {
    font-weight: 500;
    font-size: 0.86em;
    color: var(--_ink-quiet);
    background: var(--_band);
    border-bottom-color: var(--_rule-strong);
  }
  .sheet-frame:focus-within th.ht__highlight {
    color: var(--_ink);
    box-shadow: inset 0 -2px 0 var(--_accent);
  }
  .sheet-heading {
    display: block;
    overflow: hidden;
    text-overflow: ellipsis;
  }
  .sheet-grip {
    position: absolute;
    inset: 0 0 0 auto;
    width: 9px;
    cursor: col-resize;
    touch-action: none;
  }
  .sheet-grip:hover,
  .sheet-resizing .sheet-grip:active {
    border-inline-end: 3px solid var(--_accent);
    width: 6px;
  }
  .sheet-resizing {
    cursor: col-resize;
    user-select: none;
  }

  /* Rows */
  .sheet-frame tr[data-level='main'] td[role='rowheader'] {
    font-weight: 500;
  }
  .sheet-frame tr[data-level='sub'] td {
    font-size: 0.94em;
  }
  .sheet-frame tr[data-level='sub'] td[role='rowheader'] {
    padding-inline-start: 1.9em;
    background-image: linear-gradient(var(--_rule-strong), var(--_rule-strong));
    background-repeat: no-repeat;
    background-size: 1px 100%;
    background-position: 0.9em 0;
  }
  .sheet-frame tr[data-level='spare'] td {
    border-bottom-color: transparent;
  }
  .sheet-frame td[data-hint]::before {
    content: attr(data-hint);
    color: var(--_ink-quiet);
    font-weight: 400;
    font-style: italic;
  }
  .sheet-frame td.area {
    background-color: var(--_accent-wash);
  }

  /* Marks */
  .sheet-frame td[aria-readonly='true'] {
    color: var(--_ink-quiet);
  }
  .sheet-frame td[data-marks~='quiet'] {
    color: var(--_ink-quiet);
  }
  .sheet-frame td[data-marks~='strong'] {
    color: var(--_ink);
    font-weight: 650;
  }
  .sheet-frame td[data-marks~='shared'] {
    font-style: italic;
    text-decoration: underline dotted 1.5px;
    text-underline-offset: 0.22em;
  }
  .sheet-frame td[data-marks~='changed']::before {
    content: '\\2022\\00a0';
    content: '\\2022\\00a0' / '';
    color: var(--_accent);
    font-weight: 700;
  }
  .sheet-frame td[data-marks~='struck'] {
    text-decoration: line-through;
  }
  .sheet-frame td[aria-invalid='true'] {
    text-decoration: underline wavy 1px var(--_fault);
    text-underline-offset: 0.2em;
    text-decoration-skip-ink: none;
  }
  .sheet-frame td[data-corner]::after {
    content: '';
    position: absolute;
    inset: 0 0 auto auto;
    border: 3px solid var(--_ink-quiet);
    border-bottom-color: transparent;
    border-left-color: transparent;
  }
  .sheet-frame td[data-corner='invalid']::after {
    border-width: 5px;
    border-top-color: var(--_fault);
    border-right-color: var(--_fault);
  }

  /* The open editor */
  .sheet-field {
    position: absolute;
    z-index: 4;
    box-sizing: border-box !important;
    margin: 0;
    padding: 0 8px;
    border: 0;
    border-radius: 0;
    font: inherit;
    line-height: calc(var(--_row) - 1px);
    letter-spacing: inherit;
    color: var(--_ink);
    background: var(--_paper);
    outline: 2px solid var(--_accent);
    outline-offset: -1px;
    box-shadow: 0 2px 8px rgb(0 0 0 / 0.18);
    resize: none;
    overflow: hidden;
    appearance: none;
  }
  .sheet-field[data-align='end'] {
    text-align: end;
  }
  .sheet-field-away {
    max-width: 100%;
    opacity: 0;
    pointer-events: none;
  }

  .sheet-row-button {
    position: absolute;
    z-index: 2;
    width: calc(var(--_row) - 4px);
    height: calc(var(--_row) - 4px);
    min-width: 24px;
    min-height: 24px;
    border-radius: var(--_radius);
    line-height: calc(var(--_row) - 5px);
    text-align: center;
    color: var(--_ink-quiet);
    background: var(--_paper);
    cursor: pointer;
    user-select: none;
  }
  .sheet-row-button:hover {
    color: var(--_ink);
    background: var(--_band);
  }
  .sheet-editing .sheet-row-button,
  .sheet-resizing .sheet-row-button {
    display: none;
  }

  /* List, menu and hint */
  .sheet-popup {
    position: fixed;
    inset: auto;
    z-index: 1000;
    box-sizing: border-box;
    margin: 0;
    padding: 4px 0;
    border: 1px solid var(--_rule-strong);
    border-radius: var(--_radius);
    font: 400 var(--_text-size) / 1.3 var(--_font);
    letter-spacing: normal;
    text-align: start;
    text-transform: none;
    color: var(--_ink);
    background: var(--_paper);
    box-shadow: 0 4px 14px rgb(0 0 0 / 0.2);
    overflow: auto;
    max-width: min(34rem, calc(100vw - 8px));
  }
  .sheet-choices [role='option'],
  .sheet-menu [role='menuitem'] {
    display: flex;
    justify-content: space-between;
    gap: 1.5em;
    min-height: 24px;
    align-items: center;
    padding: 1px 0.75em;
    cursor: default;
  }
  .sheet-choices {
    max-height: 18rem;
  }
  .sheet-choice-hint,
  .sheet-menu-keys {
    color: var(--_ink-quiet);
    font-size: 0.9em;
  }
  .sheet-choices [role='option']:hover,
  .sheet-menu [role='menuitem']:hover {
    background: var(--_band);
  }
  .sheet-choices [aria-selected='true'],
  .sheet-menu [role='menuitem']:focus {
    background: var(--_accent-wash);
    outline: 2px solid var(--_accent);
    outline-offset: -2px;
  }
  .sheet-menu [aria-disabled='true'] {
    color: var(--_ink-quiet);
    font-style: italic;
  }
  .sheet-hint {
    padding: 0.35em 0.7em;
    max-width: 26rem;
    border-inline-start: 3px solid var(--_accent);
    white-space: pre-line;
  }

  @media (forced-colors: active) {
    .sheet-frame .wtBorder {
      forced-color-adjust: none;
      background-color: CanvasText !important;
    }
    .sheet-frame:focus-within .wtBorder {
      background-color: Highlight !important;
    }
    .sheet-frame td.area {
      outline: 1px dashed Highlight;
      outline-offset: -4px;
    }
    .sheet-frame td[data-corner]::after {
      forced-color-adjust: none;
      border-top-color: CanvasText;
      border-right-color: CanvasText;
    }
    .sheet-frame:focus-within th.ht__highlight {
      text-decoration: underline;
    }
  }
  @media print {
    .sheet-frame .sheet-row-button,
    .sheet-frame .wtBorder {
      display: none !important;
    }
  }
`;

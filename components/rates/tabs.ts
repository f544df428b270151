import { html, type TemplateResult } from 'lit';

export interface Tab {
  readonly id: string;
  readonly title: string;
}

/**
 * The tabs of the desk (tabs pattern of the WAI-ARIA Authoring Practices): one is in the order of Tab, the arrow keys go
 * from one to the next and show it at once. Panels are `id="panel-ID"`, in the same shadow root.
 */
export function tabList(label: string, tabs: readonly Tab[], active: string, show: (id: string) => void): TemplateResult {
  const onKey = (event: KeyboardEvent): void => {
    const at = tabs.findIndex(({ id }) => id === active);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: tabs.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    const { id } = tabs[(to + tabs.length) % tabs.length]!;
    show(id);
    const list = event.currentTarget as HTMLElement;
    list.querySelector<HTMLElement>(`#tab-${id}`)!.focus();
  };
  return html`<div role="tablist" aria-label=${label} class="screen-only" @keydown=${onKey}>
    ${tabs.map(
      ({ id, title }) => html`<button
        role="tab"
        id="tab-${id}"
        aria-controls="panel-${id}"
        aria-selected=${id === active}
        tabindex=${id === active ? 0 : -1}
        @click=${() => show(id)}
      >
        ${title}
      </button>`,
    )}
  </div>`;
}

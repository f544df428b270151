/**
 * Opens the row menu for those who point: a small button at the end of the active row's first cell. Hidden from
 * the keyboard and from assistive tools, which have the menu key and Shift+F10 for it.
 */
export class RowButton {
  private readonly element = document.createElement('span');

  constructor(
    private readonly frame: HTMLElement,
    press: (x: number, y: number) => void,
  ) {
    const { element } = this;
    element.className = 'sheet-row-button';
    element.textContent = '\u22ef';
    element.title = 'Row menu';
    element.setAttribute('aria-hidden', 'true');
    // Keeps the selection and the focus where they are.
    element.addEventListener('mousedown', (event) => event.preventDefault());
    element.addEventListener('click', () => {
      const box = element.getBoundingClientRect();
      press(box.left, box.bottom);
    });
  }

  /** At the end of `cell`, or at the start of what is seen of the sheet where that is scrolled away. */
  showIn(cell: Element, view: DOMRect, headBottom: number): void {
    const box = cell.getBoundingClientRect();
    if (box.top < headBottom - 2 || box.bottom > view.bottom + 2) {
      this.hide();
      return;
    }
    const { element, frame } = this;
    const origin = frame.getBoundingClientRect();
    if (!element.isConnected) frame.append(element);
    const right = Math.min(Math.max(box.right, view.left + box.height), view.right);
    element.style.top = `${box.top - origin.top - frame.clientTop + 2}px`;
    element.style.left = `${right - origin.left - element.offsetWidth - 3}px`;
  }

  hide(): void {
    this.element.remove();
  }
}

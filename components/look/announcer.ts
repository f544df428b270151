import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** What the live region of its host says. */
export class Announcer implements ReactiveController {
  /** For a `role="status"`. */
  text = '';
  private isOpen = false;

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostUpdate(): void {
    this.isOpen = false;
  }

  /** What is said in one go stays together: the grid's own words must not wipe out the reason before them. */
  say(text: string): void {
    const next = this.isOpen ? `${this.text} ${text}` : text;
    // The same words again are nothing new to a screen reader, unless something about them differs.
    this.text = !this.isOpen && next === this.text ? `${next}\u00a0` : next;
    this.isOpen = true;
    this.host.requestUpdate();
  }

  clear(): void {
    this.text = '';
    this.host.requestUpdate();
  }
}

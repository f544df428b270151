/** States of an element that a page can match: `baysheet-estimate:state(incomplete)`. */
export class HostStates {
  private readonly internals: ElementInternals;

  constructor(host: HTMLElement) {
    this.internals = host.attachInternals();
  }

  set(name: string, on: boolean): void {
    try {
      if (on) this.internals.states.add(name);
      else this.internals.states.delete(name);
    } catch {
      // A browser that knows none, or only the older form of their names.
    }
  }
}

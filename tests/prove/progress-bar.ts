const WIDTH = 40;

/** A bar that grows: in one line of a terminal, else a line for every tenth. */
export class ProgressBar {
  private readonly start = Date.now();
  private told = -1;

  constructor(private readonly all: number) {}

  at(done: number): void {
    const { isTTY } = process.stdout;
    const steps = Math.floor((done / this.all) * (isTTY ? 1000 : 10));
    if (steps <= this.told) return;
    this.told = steps;
    const seconds = (Date.now() - this.start) / 1000;
    const left = done === 0 ? '' : `, ${Math.ceil((seconds / done) * (this.all - done))} s to go`;
    const filled = Math.round((done / this.all) * WIDTH);
    const line = `  ${'█'.repeat(filled)}${'░'.repeat(WIDTH - filled)} ${done.toLocaleString('en')} of ${this.all.toLocaleString('en')}${left}`;
    process.stdout.write(isTTY ? `\r${line}\u001b[K` : `${line}\n`);
  }

  end(): void {
    if (process.stdout.isTTY) process.stdout.write('\r\u001b[K');
  }
}

import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium } from 'playwright-core';
import { until } from '../../support/storage-contract.js';
import { CHROMIUM_ARGUMENTS, chromiumPath } from './chromium.js';

/** A headless Chromium of its own process group on one profile, so that it can be killed whole and started again on what is left. */
export class KillableChromium {
  private readonly profile = mkdtemp(join(tmpdir(), 'profile-'));
  private running: ChildProcess | null = null;
  private browser: Browser | null = null;

  /** A browser that does not answer in time, as on a busy machine, is ended and another one started. */
  async start(tries = 3): Promise<BrowserContext> {
    const profile = await this.profile;
    const portFile = join(profile, 'DevToolsActivePort');
    await rm(portFile, { force: true });
    const own = ['--headless=new', '--remote-debugging-port=0', '--window-size=1400,1000', `--user-data-dir=${profile}`];
    this.running = spawn(chromiumPath(), [...CHROMIUM_ARGUMENTS, ...own], { detached: true, stdio: 'ignore' });
    try {
      let port = '';
      await until('the browser listens', async () => {
        port = await readFile(portFile, 'utf8').then(
          (text) => text.split('\n')[0]!,
          () => '',
        );
        return port !== '';
      });
      this.browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`, { timeout: 10_000 });
      return this.browser.contexts()[0]!;
    } catch (fault) {
      await this.kill();
      if (tries === 1) throw fault;
      return this.start(tries - 1);
    }
  }

  /** Kills the browser with all its processes, none of which is asked. */
  async kill(): Promise<void> {
    const child = this.running;
    this.running = null;
    if (child?.pid === undefined || child.exitCode !== null) return;
    const ended = new Promise((resolve) => child.once('exit', resolve));
    process.kill(-child.pid, 'SIGKILL');
    await ended;
    await this.browser?.close().catch(() => undefined);
  }

  async remove(): Promise<void> {
    await this.kill();
    await rm(await this.profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

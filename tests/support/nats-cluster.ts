/** A cluster of real servers on this machine, which tests kill and start again. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findNatsServer } from './find-nats-server.mjs';

export interface NatsCluster {
  /** WebSocket addresses, in the order of the servers. */
  readonly servers: readonly string[];
  /** Kills one server as a power cut does to it; its files stay. */
  kill(server: number): Promise<void>;
  /** Starts a killed one again; nothing happens to one that runs. */
  start(server: number): Promise<void>;
  close(): Promise<void>;
}

/** Starts `size` servers that know each other; resolves when they have a leader and take what is put. */
export async function startNatsCluster(size = 3, extra = ''): Promise<NatsCluster> {
  const program = findNatsServer();
  if (program === null) {
    throw new Error(
      'The tests of the cluster need nats-server. npm test installs it where it may; else install it (Debian: apt-get install ' +
        'nats-server) or set NATS_SERVER_PATH to one that is there.',
    );
  }
  const folder = mkdtempSync(join(tmpdir(), 'nats-'));
  const ports = await freePorts(3 * size);
  const [clients, routes, sockets] = [0, 1, 2].map((kind) => ports.slice(kind * size, (kind + 1) * size)) as [number[], number[], number[]];
  const processes: (ChildProcess | null)[] = Array.from({ length: size }, () => null);

  const start = async (server: number): Promise<void> => {
    if (processes[server]) return;
    const place = join(folder, `s${server}`);
    mkdirSync(place, { recursive: true });
    const config = `
      server_name: s${server}, host: 127.0.0.1, port: ${clients[server]}, log_file: ${JSON.stringify(join(place, 'log'))}
      jetstream { store_dir: ${JSON.stringify(place)}, max_memory_store: 64MB, max_file_store: 512MB }
      websocket { host: 127.0.0.1, port: ${sockets[server]}, no_tls: true }
      cluster { name: test, host: 127.0.0.1, port: ${routes[server]}, routes: [${routes.map((port) => `"nats://127.0.0.1:${port}"`).join(', ')}] }
      ${extra}`;
    writeFileSync(join(place, 'conf'), size > 1 ? config : config.replace(/cluster \{.*\}/, ''));
    const child = spawn(program, ['-c', join(place, 'conf')], { stdio: 'ignore' });
    processes[server] = child;
    await untilOpen(
      sockets[server]!,
      () => child.exitCode !== null,
      () => readFileSync(join(place, 'log'), 'utf8'),
    );
  };
  const kill = async (server: number): Promise<void> => {
    const child = processes[server];
    processes[server] = null;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const ended = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGKILL');
    await ended;
  };
  // Where the tests are stopped before they come to their end.
  const killAll = (): void => processes.forEach((child) => child?.kill('SIGKILL'));
  process.once('exit', killAll);
  const close = async (): Promise<void> => {
    process.off('exit', killAll);
    await Promise.all(processes.map((_, server) => kill(server)));
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    await Promise.all(processes.map((_, server) => start(server)));
  } catch (fault) {
    await close();
    throw fault;
  }
  return { servers: sockets.map((port) => `ws://127.0.0.1:${port}`), kill, start, close };
}

/** Ports that were free a moment ago; all are held until the last is found, so that they differ. */
async function freePorts(count: number): Promise<number[]> {
  const held = await Promise.all(
    Array.from({ length: count }, () => {
      const server = createServer();
      return new Promise<typeof server>((resolve, reject) => server.once('error', reject).listen(0, '127.0.0.1', () => resolve(server)));
    }),
  );
  const ports = held.map((server) => (server.address() as { port: number }).port);
  await Promise.all(held.map((server) => new Promise((resolve) => server.close(resolve))));
  return ports;
}

async function untilOpen(port: number, hasEnded: () => boolean, log: () => string): Promise<void> {
  for (const end = Date.now() + 20_000; ; await new Promise((resolve) => setTimeout(resolve, 50))) {
    const isOpen = await fetch(`http://127.0.0.1:${port}/`).then(
      () => true,
      () => false,
    );
    if (isOpen) return;
    if (hasEnded() || Date.now() > end) throw new Error(`nats-server did not start:\n${log()}`);
  }
}

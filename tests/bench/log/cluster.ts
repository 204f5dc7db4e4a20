import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { connect, createServer, type Server, type Socket } from "node:net";
import { join } from "node:path";
import { connect as connectNats, type NatsConnection } from "@nats-io/transport-node";

/** Three nodes of a replicated log on loopback. What they say to each other goes by lines that can be cut. */
export interface Cluster {
  readonly folders: readonly string[];
  readonly addresses: readonly string[];
  /** SIGKILL, and started again by `start`. */
  kill(node: number): Promise<void>;
  start(node: number): void;
  /** From the other nodes, not from clients. */
  cut(node: number): void;
  mend(node: number): void;
  /** A client of some nodes. */
  client(nodes: readonly number[]): Promise<NatsConnection>;
  residentMb(node: number): Promise<number>;
  end(): Promise<void>;
}

const NODES = 3;

export async function startCluster(folder: string): Promise<Cluster> {
  const [clients, routes] = [await ports(NODES), await ports(NODES)];
  const isCut = new Array<boolean>(NODES).fill(false);
  const lines: { readonly ends: Set<Socket>; readonly server: Server; readonly nodes: readonly number[] }[] = [];
  /** A line from one node to another; nothing goes by it while one of them is cut off. */
  const lineTo = async (from: number, to: number): Promise<number> => {
    const ends = new Set<Socket>();
    const server = createServer((near) => {
      if (isCut[from] || isCut[to]) return near.destroy();
      const far = connect(routes[to]!, "127.0.0.1");
      for (const end of [near, far]) ends.add(end.on("error", () => undefined));
      near.pipe(far).pipe(near);
      near.on("close", () => far.destroy());
      far.on("close", () => near.destroy());
    });
    await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
    lines.push({ ends, server, nodes: [from, to] });
    return (server.address() as { readonly port: number }).port;
  };
  const folders = Array.from({ length: NODES }, (_, i) => join(folder, `node${i}`));
  const running = new Map<number, ChildProcess>();
  for (let node = 0; node < NODES; node++) {
    mkdirSync(folders[node]!, { recursive: true });
    const others = [0, 1, 2].filter((each) => each !== node);
    const addresses = await Promise.all(others.map((other) => lineTo(node, other)));
    writeFileSync(
      join(folder, `node${node}.conf`),
      `server_name: n${node}
listen: 127.0.0.1:${clients[node]}
jetstream { store_dir: "${folders[node]}", max_file_store: 8GB }
cluster {
  name: quay
  listen: 127.0.0.1:${routes[node]}
  no_advertise: true
  routes: [${addresses.map((port) => `nats://127.0.0.1:${port}`).join(", ")}]
}
`,
    );
  }
  const start = (node: number): void => {
    const child = spawn("nats-server", ["-c", join(folder, `node${node}.conf`), "-l", join(folder, `log${node}`)], {
      stdio: "ignore",
    });
    running.set(node, child);
  };
  const kill = async (node: number): Promise<void> => {
    const child = running.get(node);
    if (child === undefined) return;
    running.delete(node);
    const ended = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGKILL");
    await ended;
  };
  for (let node = 0; node < NODES; node++) start(node);
  const addresses = clients.map((port) => `127.0.0.1:${port}`);
  return {
    folders,
    addresses,
    kill,
    start,
    cut: (node) => {
      isCut[node] = true;
      for (const line of lines) if (line.nodes.includes(node)) for (const end of line.ends) end.destroy();
    },
    mend: (node) => {
      isCut[node] = false;
    },
    client: (nodes) =>
      connectNats({
        servers: nodes.map((node) => addresses[node]!),
        ignoreClusterUpdates: true,
        maxReconnectAttempts: -1,
        reconnectTimeWait: 100,
        waitOnFirstConnect: true,
        timeout: 5000,
      }),
    residentMb: async (node) => {
      const { readFile } = await import("node:fs/promises");
      const status = await readFile(`/proc/${running.get(node)!.pid}/status`, "utf8");
      return Math.round(Number(/VmRSS:\s+(\d+)/.exec(status)![1]) / 1000);
    },
    end: async () => {
      for (let node = 0; node < NODES; node++) await kill(node);
      for (const { ends, server } of lines) {
        for (const end of ends) end.destroy();
        server.close();
      }
    },
  };
}

async function ports(count: number): Promise<readonly number[]> {
  const servers = await Promise.all(
    Array.from(
      { length: count },
      () =>
        new Promise<Server>((resolve) => {
          const server = createServer();
          server.listen(0, "127.0.0.1", () => resolve(server));
        }),
    ),
  );
  const found = servers.map((server) => (server.address() as { readonly port: number }).port);
  await Promise.all(servers.map((server) => new Promise((done) => server.close(done))));
  return found;
}

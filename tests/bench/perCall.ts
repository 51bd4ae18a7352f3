/** In ms. */
export interface Taken {
  readonly wall: number;
  readonly cpu: number;
}

/** Of processor time, compiling included. */
const WARM_MS = 800;
const LOTS = 15;

/** What a call takes, warm: the best of some lots of at least 40 ms. Processor time, collecting garbage included, is moved less by what else the machine does. */
export async function perCall(work: () => unknown): Promise<Taken> {
  let times = 1;
  for (let warmed = 0; warmed < WARM_MS; ) {
    const { cpu } = await lot(work, times);
    warmed += cpu;
    if (cpu < 40) times *= 2;
  }
  const best = { wall: Number.POSITIVE_INFINITY, cpu: Number.POSITIVE_INFINITY };
  for (let left = LOTS; left > 0; left -= 1) {
    const { wall, cpu } = await lot(work, times);
    best.wall = Math.min(best.wall, wall / times);
    best.cpu = Math.min(best.cpu, cpu / times);
  }
  return best;
}

async function lot(work: () => unknown, times: number): Promise<Taken> {
  const [cpu, began] = [process.cpuUsage(), performance.now()];
  for (let left = times; left > 0; left -= 1) await work();
  const { user, system } = process.cpuUsage(cpu);
  return { wall: performance.now() - began, cpu: (user + system) / 1000 };
}

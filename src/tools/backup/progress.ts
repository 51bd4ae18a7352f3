/** Of what takes long: how far it is, told every few seconds, beside what a command answers. */
const EVERY = 3000;

/** `share` is 0 to 1. */
export function progress(what: string): (share: number) => void {
  let told = performance.now();
  return (share) => {
    if (performance.now() - told < EVERY) return;
    told = performance.now();
    process.stderr.write(`${what}: ${Math.floor(100 * share)} %\n`);
  };
}

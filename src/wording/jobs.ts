/** Plain fractions, the plainest first. */
const OUT_OF = [2, 3, 4, 5, 10, 20, 50, 100];
const NEAR_ENOUGH = 0.1;
const EXACT = 0.0005;
const RARE = 0.005;

/** A chance, 0 to 1, as a shop counts it: '4 jobs in 5', 'about 1 job in 3'. */
export function jobsIn(chance: number): string {
  if (chance <= 0) return "no job";
  if (chance >= 1) return "every job";
  if (chance < RARE) return "fewer than 1 job in 200";
  if (chance > 1 - RARE) return "all but 1 job in 200";
  const off = (of: number) => Math.abs(Math.round(chance * of) / of - chance);
  const of = OUT_OF.find((each) => off(each) <= NEAR_ENOUGH * Math.min(chance, 1 - chance)) ?? OUT_OF.at(-1)!;
  const jobs = Math.round(chance * of);
  return `${off(of) < EXACT ? "" : "about "}${jobs} ${jobs === 1 ? "job" : "jobs"} in ${of}`;
}

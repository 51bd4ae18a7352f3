import { execFile } from "node:child_process";
import { mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";

const run = promisify(execFile);

/** A PDF in a file of its own, for tools that are not ours: poppler and qpdf. */
export class Paper {
  readonly path: string;

  private constructor(path: string) {
    this.path = path;
  }

  static async of(bytes: Uint8Array): Promise<Paper> {
    const path = join(await mkdtemp(join(tmpdir(), "paper-")), "a.pdf");
    await writeFile(path, bytes);
    return new Paper(path);
  }

  /** Fails when qpdf finds an error or has a warning. */
  check = async (): Promise<string> => (await run("qpdf", ["--check", this.path])).stdout;
  info = async (...more: string[]): Promise<string> => (await run("pdfinfo", [...more, this.path], LARGE)).stdout;
  fonts = async (): Promise<string> => (await run("pdffonts", [this.path])).stdout;
  /** By page, laid out as on paper. */
  pages = async (): Promise<string[]> =>
    (await run("pdftotext", ["-layout", "-enc", "UTF-8", this.path, "-"], LARGE)).stdout.split("\f").slice(0, -1);
  /** As it is read, with every run of white space as one space. */
  text = async (): Promise<string> =>
    (await run("pdftotext", ["-enc", "UTF-8", this.path, "-"], LARGE)).stdout.replaceAll(/\s+/g, " ");

  /** By page: each word, with where it stands. */
  words = async (): Promise<Word[][]> =>
    (await run("pdftotext", ["-bbox", this.path, "-"], LARGE)).stdout
      .split("<page ")
      .slice(1)
      .map((page) =>
        [...page.matchAll(WORD)].map(([, left, top, right, bottom, text]) => ({
          ...{ left: Number(left), top: Number(top), right: Number(right), bottom: Number(bottom) },
          text: text!.replaceAll(/&(amp|lt|gt|quot|apos);/g, (_, name: keyof typeof ENTITIES) => ENTITIES[name]),
        })),
      );

  /** Grey levels of one page, 0 black to 255 white. */
  async raster(page: number, dotsPerInch: number): Promise<Raster> {
    const root = this.path.replace(/\.pdf$/, `-${page}-${dotsPerInch}`);
    const which = ["-f", String(page), "-l", String(page), "-singlefile"];
    await run("pdftoppm", ["-gray", "-r", String(dotsPerInch), ...which, this.path, root]);
    return readGrey(await readFile(`${root}.pgm`));
  }
}

/** Points from the left and the top of the page. */
export interface Word {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly text: string;
}

const WORD = /<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)<\/word>/g;
const ENTITIES = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly levels: Uint8Array;
}

const LARGE = { maxBuffer: 64 * 1024 * 1024 };

/** Netpbm PGM, binary. */
function readGrey(file: Buffer): Raster {
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(file.subarray(0, 40).toString("latin1"));
  if (!head) throw new Error("pdftoppm wrote something else than a grey map");
  return { width: Number(head[1]), height: Number(head[2]), levels: file.subarray(head[0].length) };
}

/** Walks through the shop as a person does, and counts what the hands do: each click, each key. */
import type { Locator, Page } from "playwright-core";

export interface Stop {
  readonly name: string;
  readonly title: string;
  readonly text: string;
  /** By the hands since the stop before. */
  readonly clicks: number;
  readonly keys: number;
}

/** Takes the picture of a stop; in a check it only looks whether there is something to see. */
export type Camera = (page: Page, file: string, looksAt?: Locator) => Promise<void>;

export class Guide {
  readonly stops: Stop[] = [];
  readonly #camera: Camera;
  #clicks = 0;
  #keys = 0;

  constructor(camera: Camera) {
    this.#camera = camera;
  }

  async click(target: Locator): Promise<void> {
    this.#clicks += 1;
    await target.click();
  }

  /** A click into the field, then its characters. */
  async type(target: Locator, text: string): Promise<void> {
    this.#clicks += 1;
    this.#keys += [...text].length;
    await target.fill(text);
  }

  /** Open the list, choose from it. */
  async choose(target: Locator, option: { readonly index: number }): Promise<void> {
    this.#clicks += 2;
    await target.selectOption(option);
  }

  async stop(page: Page, name: string, title: string, text: string, looksAt?: Locator): Promise<void> {
    await this.#camera(page, `${String(this.stops.length + 1).padStart(2, "0")}-${name}.png`, looksAt);
    this.stops.push({ name, title, text, clicks: this.#clicks, keys: this.#keys });
    this.#clicks = 0;
    this.#keys = 0;
  }
}

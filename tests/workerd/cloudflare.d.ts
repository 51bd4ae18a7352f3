/** What of the pool's own module these tests use. */
declare module "cloudflare:test" {
  /** Bindings of wrangler.toml. */
  export const env: Readonly<Record<string, unknown>>;
}

/** Security headers on every answer. No inline script or style is allowed anywhere. */
import type { MiddlewareHandler } from "hono";
import { secureHeaders } from "hono/secure-headers";
import type { AppEnv } from "../bindings.js";

const headers = secureHeaders({
  contentSecurityPolicy: {
    defaultSrc: ["'none'"],
    scriptSrc: ["'self'"],
    styleSrc: ["'self'"],
    imgSrc: ["'self'"],
    fontSrc: ["'self'"],
    connectSrc: ["'self'"],
    manifestSrc: ["'self'"],
    formAction: ["'self'"],
    baseUri: ["'none'"],
    frameAncestors: ["'none'"],
  },
  // `no-referrer` would make browsers send `Origin: null` with our own forms.
  referrerPolicy: "same-origin",
  xFrameOptions: "DENY",
  crossOriginResourcePolicy: "same-origin",
  crossOriginOpenerPolicy: "same-origin",
  strictTransportSecurity: false,
  permissionsPolicy: {
    camera: [],
    microphone: [],
    geolocation: [],
    payment: [],
    usb: [],
    publickeyCredentialsGet: ["self"],
  },
});

/** What an owner reaches by a link, and the door to it. */
const OWNERS = /^\/o(\/|$)/;
/** What someone sent in: shown, and nothing else. */
const PHOTO = /^image\/(jpeg|png|webp)$/;

export const securityHeaders: MiddlewareHandler<AppEnv> = async (c, next) => {
  await headers(c, next);
  // A browser's PDF viewer is made of frames and styles of its own.
  if (c.res.headers.get("content-type") === "application/pdf") c.header("content-security-policy", "frame-ancestors 'none'");
  if (PHOTO.test(c.res.headers.get("content-type") ?? ""))
    c.header("content-security-policy", "default-src 'none'; sandbox; frame-ancestors 'none'");
  if (new URL(c.req.url).protocol === "https:") c.header("strict-transport-security", "max-age=31536000");
  if (OWNERS.test(c.req.path)) {
    c.header("referrer-policy", "no-referrer");
    c.header("x-robots-tag", "noindex, nofollow, noarchive");
    c.header("cache-control", "private, no-store");
  }
  if (!c.res.headers.has("cache-control")) c.header("cache-control", "private, no-cache");
};

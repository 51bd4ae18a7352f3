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

/** Set on the answer itself: by `c.header` a finished answer is made anew each time, and Node's server then reads its body back as a stream. */
export const securityHeaders: MiddlewareHandler<AppEnv> = async (c, next) => {
  await headers(c, next);
  const told = c.res.headers;
  const type = told.get("content-type") ?? "";
  // A browser's PDF viewer is made of frames and styles of its own.
  if (type === "application/pdf") told.set("content-security-policy", "frame-ancestors 'none'");
  if (PHOTO.test(type)) told.set("content-security-policy", "default-src 'none'; sandbox; frame-ancestors 'none'");
  if (c.req.url.startsWith("https:")) told.set("strict-transport-security", "max-age=31536000");
  if (OWNERS.test(c.req.path)) {
    told.set("referrer-policy", "no-referrer");
    told.set("x-robots-tag", "noindex, nofollow, noarchive");
    told.set("cache-control", "private, no-store");
  }
  if (!told.has("cache-control")) told.set("cache-control", "private, no-cache");
};

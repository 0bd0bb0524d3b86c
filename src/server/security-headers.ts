/**
 * What the page may do: nothing but what comes from its own server. WebAssembly is compiled by the solver of integer
 * programmes, pictures are made in memory, and everything else that a page could load is closed.
 */
const policy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "font-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** For answers that are no page: even opened on their own they can do nothing. */
const policyOfData = "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; sandbox";

const always = {
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "X-Frame-Options": "DENY",
  "Permissions-Policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=(), serial=(), bluetooth=()",
};

export const headersOfPage: Readonly<Record<string, string>> = { ...always, "Content-Security-Policy": policy };

export const headersOfData: Readonly<Record<string, string>> = { ...always, "Content-Security-Policy": policyOfData };

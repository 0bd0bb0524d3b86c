/** A clock that only the test moves, and bytes that count upwards by `step`. */
export function stillClock(step: number) {
  let now = Date.UTC(2026, 2, 14);
  let byte = 0;
  return {
    nowMs: () => now,
    randomBytes: (count: number) =>
      Uint8Array.from({ length: count }, () => {
        byte = (byte + step) & 255;
        return byte;
      }),
    wait: (ms: number) => {
      now += ms;
    },
  };
}

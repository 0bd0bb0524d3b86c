/** What the use cases need from outside: the time here, and randomness for ids. */
export interface Surroundings {
  nowMs(): number;
  /** Minutes east of Greenwich at that moment, in this place. */
  offsetMinutes(atMs: number): number;
  randomBytes(count: number): Uint8Array;
}

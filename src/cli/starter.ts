import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";

/**
 * Says whether the program that started this one is still there. npm starts its scripts through a shell, which stays
 * behind when npm is gone; then it is npm that counts.
 */
export function starter(): { isGone(): boolean } {
  const parent = process.ppid;
  const npm = process.env.npm_lifecycle_event === undefined ? null : parentOf(parent);
  return { isGone: () => process.ppid !== parent || (npm !== null && !isAlive(npm)) };
}

/** Null where the system does not tell. */
function parentOf(pid: number): number | null {
  try {
    const stat = `/proc/${pid}/stat`;
    // Behind the name in brackets, which may hold anything, stand the state and the parent.
    const told = existsSync(stat)
      ? readFileSync(stat, "utf8").split(") ").at(-1)!.split(" ")[1]
      : execFileSync("ps", ["-o", "ppid=", "-p", String(pid)], { encoding: "utf8", stdio: "pipe" });
    return Number(told) > 1 ? Number(told) : null;
  } catch {
    return null;
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (problem) {
    return (problem as NodeJS.ErrnoException).code === "EPERM";
  }
}

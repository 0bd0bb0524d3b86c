import { homedir } from "node:os";
import { isAbsolute, join } from "node:path";

/**
 * The folder that the database and its backups are kept in: what KILTER_DATA names; else "kilter" in the folder that the
 * system keeps for a program's data, after [XDG] on systems that follow it.
 */
export function dataFolder(
  environment: Readonly<Record<string, string | undefined>> = process.env,
  platform: string = process.platform,
  home: string = homedir(),
): string {
  const { KILTER_DATA: named, XDG_DATA_HOME: shared, LOCALAPPDATA: local } = environment;
  if (named !== undefined && named !== "") return named;
  if (platform === "darwin") return join(home, "Library", "Application Support", "kilter");
  if (platform === "win32") return join(local || join(home, "AppData", "Local"), "kilter");
  // A path that is not absolute counts as none.
  const base = shared !== undefined && isAbsolute(shared) ? shared : join(home, ".local", "share");
  return join(base, "kilter");
}

/** The database in its folder. */
export function databaseIn(folder: string): string {
  return join(folder, "kilter.db");
}

import { join } from "node:path";
import { expect, test } from "vitest";
import { databaseIn, dataFolder } from "./data-folder.ts";

const home = join("/", "home", "somebody");

test.each([
  ["what KILTER_DATA names", { KILTER_DATA: "/srv/kilter", XDG_DATA_HOME: "/x" }, "linux", "/srv/kilter"],
  ["where the system keeps data", { XDG_DATA_HOME: "/x" }, "linux", join("/x", "kilter")],
  ["the usual place for it", {}, "linux", join(home, ".local", "share", "kilter")],
  [
    "the usual place where the stated one is not absolute",
    { XDG_DATA_HOME: "x" },
    "linux",
    join(home, ".local", "share", "kilter"),
  ],
  ["the usual place where nothing is named", { KILTER_DATA: "" }, "freebsd", join(home, ".local", "share", "kilter")],
  ["application support", { XDG_DATA_HOME: "/x" }, "darwin", join(home, "Library", "Application Support", "kilter")],
  ["local application data", { LOCALAPPDATA: "/local" }, "win32", join("/local", "kilter")],
  ["the usual place of that", {}, "win32", join(home, "AppData", "Local", "kilter")],
])("the folder is %s", (_, environment, platform, folder) => {
  expect(dataFolder(environment, platform, home)).toBe(folder);
  expect(databaseIn(folder)).toBe(join(folder, "kilter.db"));
});

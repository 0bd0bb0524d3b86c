/** Why the system refused, in words. */
export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === "ENOENT") return "there is no such file or folder";
  if (code === "EACCES" || code === "EPERM") return "it may not be touched by this user";
  if (code === "EISDIR") return "it is a folder";
  if (code === "ENOTDIR" || code === "EEXIST") return "a file stands where a folder should be";
  if (code === "EROFS") return "nothing can be written there";
  if (code === "ENOSPC") return "the disk is full";
  return code ?? "the system does not say why";
}

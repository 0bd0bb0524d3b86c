import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Photograph } from "../../app/event-store.ts";

/** The address of a picture that lies in this page, as long as it is shown; empty until it has one, and without a picture. */
export function useOwnAddress(picture: Photograph | undefined): string {
  const address = useSignal("");
  useEffect(() => {
    if (picture === undefined) return;
    const url = URL.createObjectURL(new Blob([Uint8Array.from(picture.bytes)], { type: picture.mediaType }));
    address.value = url;
    return () => {
      address.value = "";
      URL.revokeObjectURL(url);
    };
  }, [picture]);
  return address.value;
}

import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { isOwner } from "../live/feed.ts";
import { server } from "../live/server.ts";
import { refusedPictures, unsentPictures } from "./pictures.ts";

interface PhotographProps {
  readonly machine: string;
  readonly sha256: string;
  readonly words: string;
}

/** A photograph as it lies in the logbook: small, large when it is opened, or gone with its bytes. */
export function Photograph({ machine, sha256, words }: PhotographProps) {
  const here = unsentPictures.value.get(sha256);
  const refused = refusedPictures.value.get(sha256);
  const own = useSignal("");
  const isGone = useSignal(false);
  useEffect(() => {
    if (here === undefined) return;
    const url = URL.createObjectURL(new Blob([Uint8Array.from(here.bytes)], { type: here.mediaType }));
    own.value = url;
    return () => {
      own.value = "";
      URL.revokeObjectURL(url);
    };
  }, [here]);
  const address = own.value === "" ? `/api/machines/${machine}/photographs/${sha256}` : own.value;
  if (isGone.value) return <p class="note">Its picture has been removed, or has not come from its device yet.</p>;
  if (here !== undefined && own.value === "") return null;
  return (
    <figure class="photograph">
      <a href={address} target="_blank" rel="noreferrer">
        <img
          src={address}
          alt={words}
          loading="lazy"
          onError={() => {
            isGone.value = true;
          }}
        />
      </a>
      {here !== undefined && (
        <figcaption class="note">
          {refused ?? "It is on this device, and is sent when the server is reached."}
        </figcaption>
      )}
      {here === undefined && isOwner.value && (
        <button
          type="button"
          class="plain tiny"
          aria-label={`Remove the picture: ${words}`}
          onClick={async () => {
            const reply = await server.removePhotograph(machine, sha256);
            if (reply.ok || reply.status === 404) isGone.value = true;
          }}
        >
          Remove the picture
        </button>
      )}
    </figure>
  );
}

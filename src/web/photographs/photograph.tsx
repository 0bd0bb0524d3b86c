import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { isOwner } from "../live/feed.ts";
import { server } from "../live/server.ts";
import { refusedPictures, takeBackPicture, unsentPictures } from "./pictures.ts";
import { useOwnAddress } from "./use-own-address.ts";

interface PhotographProps {
  readonly machine: string;
  readonly sha256: string;
  readonly words: string;
}

/** A photograph as it lies in the logbook: small, large when it is opened, or gone with its bytes. */
export function Photograph({ machine, sha256, words }: PhotographProps) {
  const here = unsentPictures.value.get(sha256);
  const refused = refusedPictures.value.get(sha256);
  const own = useOwnAddress(here);
  const gone = useSignal<"no" | "not there" | "removed">("no");
  const goneWords = useRef<HTMLParagraphElement>(null);
  // The button that was pressed has gone with the picture.
  useEffect(() => {
    if (gone.value === "removed") goneWords.current?.focus();
  }, [gone.value]);
  if (gone.value !== "no") {
    return (
      <p class="note" ref={goneWords} tabIndex={-1}>
        {gone.value === "removed"
          ? "Its picture has been removed for good; its line stays."
          : "Its picture has been removed, or has not come from its device yet."}
      </p>
    );
  }
  if (here !== undefined && own === "") return null;
  const address = own === "" ? `/api/machines/${machine}/photographs/${sha256}` : own;
  return (
    <figure class="photograph">
      <a href={address} target="_blank" rel="noreferrer">
        <img
          src={address}
          alt={words}
          loading="lazy"
          onError={() => {
            if (gone.value === "no") gone.value = "not there";
          }}
        />
      </a>
      <figcaption class="note">
        <PictureState isHere={here !== undefined} refused={refused} />
      </figcaption>
      {(here !== undefined || isOwner.value) && (
        <RemovePicture
          words={words}
          isHere={here !== undefined}
          remove={async () => {
            if (here === undefined) {
              const reply = await server.removePhotograph(machine, sha256);
              if (!reply.ok && reply.status !== 404) return reply.words;
            }
            gone.value = "removed";
            if (here !== undefined) await takeBackPicture(sha256);
            return "";
          }}
        />
      )}
    </figure>
  );
}

function PictureState({ isHere, refused }: { isHere: boolean; refused: string | undefined }) {
  if (!isHere) return <>Sent: the server keeps it.</>;
  if (refused === undefined) {
    return (
      <>
        <strong>On this device only.</strong> It is sent when the server is reached.
      </>
    );
  }
  return (
    <>
      <strong class="wrong">It could not be sent.</strong> {refused} It lies on this device only.
    </>
  );
}

interface RemovePictureProps {
  readonly words: string;
  readonly isHere: boolean;
  /** Says why it stays; empty where it is gone. */
  readonly remove: () => Promise<string>;
}

/** Asked once more, since a picture that is removed does not come back. What is safe comes first and has the focus. */
function RemovePicture({ words, isHere, remove }: RemovePictureProps) {
  const step = useSignal<"still" | "asks" | "kept">("still");
  const busy = useSignal(false);
  const why = useSignal("");
  const first = useRef<HTMLButtonElement>(null);
  const keep = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (step.value === "asks") keep.current?.focus();
    if (step.value === "kept") first.current?.focus();
  }, [step.value]);
  if (step.value !== "asks") {
    return (
      <button
        key="first"
        ref={first}
        type="button"
        class="plain small-button"
        aria-label={`Remove the picture: ${words}`}
        onClick={() => {
          step.value = "asks";
        }}
      >
        Remove the picture
      </button>
    );
  }
  const close = () => {
    why.value = "";
    step.value = "kept";
  };
  return (
    <fieldset
      key="asks"
      class="photograph-removal not-printed"
      onKeyDown={(event) => {
        if (event.key === "Escape" && !busy.value) close();
      }}
    >
      <legend class="hide">Remove the picture: {words}</legend>
      <p>
        {isHere
          ? "The picture lies nowhere but on this device, and does not come back. Its line in the log stays."
          : "The picture is taken off the server and does not come back. Its line in the log stays."}
      </p>
      <div class="button-row">
        <button ref={keep} type="button" onClick={close}>
          Keep it
        </button>
        <button
          type="button"
          class="plain"
          aria-disabled={busy.value}
          onClick={async () => {
            if (busy.value) return;
            busy.value = true;
            why.value = "";
            why.value = await remove();
            busy.value = false;
          }}
        >
          Remove it for good
        </button>
      </div>
      <div role="alert">{why.value !== "" && <p class="wrong">The picture is still there. {why.value}</p>}</div>
    </fieldset>
  );
}

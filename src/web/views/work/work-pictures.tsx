import { useSignal } from "@preact/signals";
import { Drawing } from "../../parts/drawing.tsx";
import { Jump } from "../../parts/jump.tsx";
import { ToldList } from "../../parts/told.tsx";
import type { PictureSize, PictureSizes, WorkAsked, WorkPage, WorkPicture } from "../../worker/protocol-work.ts";
import { SizeField, typedSize } from "./size-field.tsx";
import { withSizes } from "./work-query.ts";

interface Props {
  readonly page: WorkPage;
  readonly sizes: PictureSizes;
  readonly look: (next: Partial<WorkAsked>) => void;
}

/** Where the pictures begin on the view. */
export const picturesPlace = "comes-out";

const placeOf = (picture: string) => `${picturesPlace}-${picture}`;

/** Every picture with its numbers; sizes can be asked for otherwise and stand in the address. */
export function WorkPictures({ page, sizes, look }: Props) {
  return (
    <section class="work-pictures" aria-labelledby={picturesPlace}>
      <h2 id={picturesPlace} tabIndex={-1}>
        What it comes out like
      </h2>
      <nav class="links" aria-label="The pictures">
        {page.pictures.map(({ id, words }) => (
          <Jump key={id} to={placeOf(id)}>
            {words}
          </Jump>
        ))}
      </nav>
      {page.pictures.map((picture) => (
        <Picture
          key={picture.id}
          picture={picture}
          own={sizes[picture.id] ?? {}}
          onSizes={(own) => look({ sizes: withSizes(sizes, picture.id, own) })}
        />
      ))}
    </section>
  );
}

interface PictureProps {
  readonly picture: WorkPicture;
  readonly own: Readonly<Record<string, number>>;
  readonly onSizes: (own: Readonly<Record<string, number>>) => void;
}

function Picture({ picture, own, onSizes }: PictureProps) {
  const { id, words, title, wide, narrow, rows, told } = picture;
  return (
    <article class="work-picture" id={placeOf(id)} tabIndex={-1}>
      <h3 class={title === "" ? undefined : "hide"}>{title === "" ? words : title}</h3>
      <ToldList told={told} />
      {title !== "" && (
        <>
          <div class="on-wide">
            <Drawing svg={wide} frame name={title} />
          </div>
          <div class="on-narrow">
            <Drawing svg={narrow} />
          </div>
          <details>
            <summary>All its numbers</summary>
            <NumberTable rows={rows} title={title} />
          </details>
        </>
      )}
      <details open={title === ""}>
        <summary>Draw it with other sizes</summary>
        <SizeForm key={JSON.stringify(own)} sizes={picture.sizes} own={own} onSizes={onSizes} />
      </details>
    </article>
  );
}

function NumberTable({ rows, title }: { rows: WorkPicture["rows"]; title: string }) {
  const hasAfter = rows.some(({ after }) => after !== null);
  return (
    <div class="wide-table">
      <table class="demand-table">
        <caption class="hide">{title}</caption>
        <thead>
          <tr>
            <th scope="col">mm</th>
            <th scope="col" class="num">
              now
            </th>
            {hasAfter && (
              <th scope="col" class="num">
                after the plan
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ words, now, after }) => (
            <tr key={words}>
              <th scope="row">{words}</th>
              <td class="num">{now}</td>
              {hasAfter && <td class="num strong">{after}</td>}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface FormProps {
  readonly sizes: readonly PictureSize[];
  readonly own: Readonly<Record<string, number>>;
  readonly onSizes: (own: Readonly<Record<string, number>>) => void;
}

/** What stays empty is the usual on this machine. */
function SizeForm({ sizes, own, onSizes }: FormProps) {
  const texts = useSignal<Readonly<Record<string, string>>>(
    Object.fromEntries(Object.entries(own).map(([key, value]) => [key, String(value)])),
  );
  const read = sizes.map((size) => ({ key: size.key, ...typedSize(texts.value[size.key] ?? "", size) }));
  const isWrong = read.some(({ problem }) => problem !== "");
  return (
    <form
      class="size-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isWrong)
          onSizes(Object.fromEntries(read.flatMap(({ key, value }) => (value === null ? [] : [[key, value]]))));
      }}
    >
      {sizes.map((size) => (
        <SizeField
          key={size.key}
          label={size.words}
          size={size}
          text={texts.value[size.key] ?? ""}
          onText={(text) => {
            texts.value = { ...texts.value, [size.key]: text };
          }}
        />
      ))}
      <div class="button-row">
        <button type="submit" disabled={isWrong}>
          Draw it so
        </button>
        {Object.keys(own).length > 0 && (
          <button type="button" onClick={() => onSizes({})}>
            As is usual
          </button>
        )}
      </div>
    </form>
  );
}

type Data = Readonly<Record<string, string | number>>;

/** Words for demands on the work that cannot be met with sense, or not on this machine. */
export const workPhrases = {
  "demand-kind-unknown": (d: Data) => ({
    what: `“${d.kind}” is nothing that can be demanded of the work`,
    expected: `one of: ${d.listed}`,
    remedy: d.meant === "" ? "choose one of these" : `was ${d.meant} meant?`,
  }),
  "demand-limit-impossible": (d: Data) => ({
    what: `this limit for ${d.kind} can never be kept`,
    expected: `a number of ${d.unit} above nothing`,
    remedy: "state how far the work may be out; no machine does without some room",
  }),
  "demand-size-unknown": (d: Data) => ({
    what: `${d.kind} takes no size “${d.size}”`,
    expected: d.listed === "" ? "no sizes at all" : `any of: ${d.listed}`,
    remedy: "leave it out, or use one of these names",
  }),
  "demand-size-impossible": (d: Data) => ({
    what: `this is no ${d.size}`,
    expected: `a number from ${d.from} to ${d.to} ${d.unit}`,
    remedy: "look at the unit and the point",
  }),
  "demand-size-beyond-reach": (d: Data) => ({
    what: `there is no room for a ${d.size} of ${d.value} ${d.unit}`,
    expected: `at most ${d.most} ${d.unit} on this machine at this place`,
    remedy: "make the work smaller, or put its middle where there is more room",
  }),
  "demand-answer-unknown": (d: Data) => ({
    what: `this is no answer for ${d.size}`,
    expected: `one of: ${d.listed}`,
    remedy: "choose one of these",
  }),
  "demand-place-outside": (d: Data) => ({
    what: "the middle of this work lies outside the travel",
    expected: `x from 0 to ${d.x} mm and y from 0 to ${d.y} mm`,
    remedy: "choose a place that the cutter reaches, or leave the place out",
  }),
  "demand-place-idle": (d: Data) => ({
    what: `${d.kind} is the same all over the bed`,
    expected: "no place",
    remedy: "leave the place out",
  }),
} as const;

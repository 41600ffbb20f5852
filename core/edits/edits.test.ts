import fc from "fast-check";
import { expect, test } from "vitest";
import { applyEdit } from "./apply.ts";
import { diffEdit } from "./diff.ts";
import { type Edit, invert, type Json } from "./edit.ts";

const bytes = (value: unknown) => JSON.stringify(value);
const key = fc.constantFrom("site", "outline", "bond", "kind", "x-own", "a", "__proto__", "constructor", "0", "10");
const json = fc.letrec<{ value: Json }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    fc.constantFrom<Json>(null, true, false, 0, 1, -2.5, 1e21, "", "half", "\u2028"),
    fc.array(tie("value"), { maxLength: 5 }),
    fc
      .uniqueArray(fc.tuple(key, tie("value")), { maxLength: 5, selector: ([name]) => name })
      .map((entries) => JSON.parse(`{${entries.map(([k, v]) => `${bytes(k)}:${bytes(v)}`).join(",")}}`) as Json),
  ),
})).value;
const run = { numRuns: 2_000, seed: 41 };
const edited = (from: Json, to: Json) => diffEdit("open", from, to);

test("law 1: the edit between two values turns the one into the other, to the byte; none where they are the same", () => {
  fc.assert(
    fc.property(json, json, (from, to) => {
      const edit = edited(from, to);
      expect(bytes(edit ? applyEdit(from, edit)!.value : from)).toBe(bytes(to));
    }),
    run,
  );
});

test("law 2: the inverse brings back the same bytes, that of the edit and that of its application alike", () => {
  fc.assert(
    fc.property(json, json, (from, to) => {
      const edit = edited(from, to);
      if (!edit) return;
      const there = applyEdit(from, edit)!;
      expect(bytes(applyEdit(there.value, there.inverse)!.value)).toBe(bytes(from));
      expect(bytes(applyEdit(there.value, invert(edit))!.value)).toBe(bytes(from));
      expect(bytes(invert(invert(edit)))).toBe(bytes(edit));
    }),
    run,
  );
});

test("law 3: an edit is plain JSON: written and read it does the same", () => {
  fc.assert(
    fc.property(json, json, (from, to) => {
      const edit = edited(from, to);
      if (!edit) return;
      const read = JSON.parse(bytes(edit)) as Edit;
      expect(bytes(applyEdit(from, read))).toBe(bytes(applyEdit(from, edit)));
    }),
    run,
  );
});

test("law 4: an edit applied to anything else either has a place and can be taken back, or changes nothing", () => {
  fc.assert(
    fc.property(json, json, json, (from, to, other) => {
      const edit = edited(from, to);
      const before = bytes(other);
      const done = edit && applyEdit(other, edit);
      expect(bytes(other)).toBe(before);
      if (done) expect(bytes(applyEdit(done.value, done.inverse)!.value)).toBe(before);
    }),
    run,
  );
});

test("one vertex moved is one small record, whatever the size of the job", () => {
  const levels = Array.from({ length: 3_000 }, (_, i) => [i, i * 2, i / 7]);
  const from = {
    site: {
      outline: [
        [0, 0],
        [5000, 0],
        [5000, 3000],
      ],
    },
    survey: { levels },
  };
  const to = {
    site: {
      outline: [
        [0, 0],
        [5010, 0],
        [5000, 3000],
      ],
    },
    survey: { levels },
  };
  expect(bytes(diffEdit("outline", from, to))).toBe(
    bytes({
      name: "outline",
      changes: [{ kind: "splice", at: ["site", "outline"], index: 1, was: [[5000, 0]], now: [[5010, 0]] }],
    }),
  );
});

test("a list entry that moved since is found again; one that is gone leaves the edit without effect", () => {
  const edit = edited({ levels: ["a", "b", "c"] }, { levels: ["a", "c"] })!;
  expect(applyEdit({ levels: ["x", "y", "b"] }, edit)?.value).toEqual({ levels: ["x", "y"] });
  expect(applyEdit({ levels: ["x"] }, edit)).toBeNull();
  expect(applyEdit({}, edit)).toBeNull();
});

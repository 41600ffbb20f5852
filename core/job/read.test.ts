import { Compile } from "typebox/compile";
import { describe, expect, test } from "vitest";
import { readAgainst } from "../read/read.ts";
import { hashJson } from "./hash.ts";
import { type Migration, migrate, migrateFormat } from "./migrate.ts";
import { readJob } from "./read.ts";
import { exportJobSchema, jobRule } from "./schema.ts";

const LEAST = {
  format: "rowline/job@1",
  title: "Courtyard",
  site: {
    outline: [
      [0, 0],
      [6400, 0],
      [6400, 4200],
      [0, 4200],
    ],
  },
  board: { lengths: [{ length: 1500 }], width: 145, rise: 25 },
};
const read = (job: unknown) => readJob(JSON.stringify(job), "a.job.json");
const jobOf = (job: unknown) => {
  const result = read(job);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};

describe("the least job", () => {
  test("has every default, and names those it used", () => {
    const { job, defaultsUsed } = jobOf(LEAST);
    expect(job.currency).toBe("EUR");
    expect(job.bond).toEqual({
      angle: 0,
      kind: "half",
      shift: null,
      firstRow: null,
      stagger: 300,
      minPiece: 300,
      minRip: 50,
      startAt: null,
      locked: [],
    });
    expect(job.gaps).toEqual({ side: 5, sideRange: [5, 5], end: 5, edge: 10 });
    expect(job.clips).toMatchObject({
      length: 120,
      clearMax: 500,
      measure: "clear",
      fixing: { diameter: 6, embed: 35, holes: [[0, 0]] },
    });
    expect(job.trim).toMatchObject({ length: 2400, thickness: 2, vent: true });
    expect(job.base).toMatchObject({ kind: "concrete", firm: true, membrane: "unknown", loadMax: null, confirmed: [] });
    expect(job.base.preparation.materials).toHaveLength(1);
    expect(job.site.sides).toHaveLength(4);
    expect(job.site.outline![1]).toEqual([6400, 0, 0]);
    expect(defaultsUsed).toEqual(
      expect.arrayContaining(["bond.kind", "bond.angle", "clips.fixing.embed", "site.sides", "gaps.sideRange"]),
    );
    expect(defaultsUsed).not.toContain("board.width");
    expect(defaultsUsed).not.toContain("site.cutouts");
    expect(new Set(defaultsUsed).size).toBe(defaultsUsed.length);
  });

  test("no field of it is left undefined", () => {
    const walk = (value: unknown, path: string): void => {
      expect(value, path).not.toBeUndefined();
      if (typeof value === "object" && value !== null)
        for (const [key, child] of Object.entries(value)) walk(child, `${path}.${key}`);
    };
    walk(jobOf(LEAST).job, "job");
  });

  test("given fields are not defaults", () => {
    const { defaultsUsed } = jobOf({ ...LEAST, bond: { kind: "free" }, trim: null });
    expect(defaultsUsed).not.toContain("bond.kind");
    expect(defaultsUsed.filter((one) => one.startsWith("trim"))).toEqual([]);
    expect(jobOf({ ...LEAST, trim: null }).job.trim).toBeNull();
  });
});

describe("short forms are written out", () => {
  test("sides, yes and no, one side gap", () => {
    const { job } = jobOf({
      ...LEAST,
      site: {
        ...LEAST.site,
        sides: ["wall", { kind: "open" }, { kind: "door", sill: 40, opens: "out", leafClear: 15 }, "kerb"],
      },
      base: { firm: "unknown", membrane: "no", heating: "yes", tendons: false },
      gaps: { side: 6 },
    });
    expect(job.site.sides[0]).toEqual({ kind: "wall", gap: null, sill: null, opens: null, leafClear: null });
    expect(job.site.sides[2]).toEqual({ kind: "door", gap: null, sill: 40, opens: "out", leafClear: 15 });
    expect(job.base).toMatchObject({ firm: "unknown", membrane: false, heating: true, tendons: false });
    expect(job.gaps.sideRange).toEqual([6, 6]);
    expect(jobOf({ ...LEAST, gaps: { sideRange: [6, 8] } }).job.gaps.side).toBe(6);
  });

  test("keys of other programs are read past, and belong to the hash", () => {
    const own = { ...LEAST, "x-app": { colour: 1 }, board: { ...LEAST.board, "x-note": [1] } };
    expect(jobOf(own).job).toEqual(jobOf(LEAST).job);
    expect(jobOf(own).hash).not.toBe(jobOf(LEAST).hash);
  });
});

describe("the hash", () => {
  test("order of keys and form of numbers do not matter (RFC 8785)", () => {
    const a = readJob(JSON.stringify(LEAST, null, 2), "a");
    const b = readJob(
      `{"board":{"rise":2.5e1,"width":145.0,"lengths":[{"length":1500}]},"site":${JSON.stringify(LEAST.site)},"title":"Courtyard","format":"rowline/job@1"}`,
      "b",
    );
    expect(a.ok && b.ok && a.value.hash === b.value.hash).toBe(true);
  });
  test("is the SHA-256 any tool gives for the canonical text", () => {
    // printf '{}' | sha256sum
    expect(hashJson({})).toBe("44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a");
  });
});

describe("versions", () => {
  const raise: Migration = { to: 2, change: ({ name, ...rest }) => ({ ...rest, title: name }) };
  const FUTURE = {
    format: "rowline/job@2",
    schema: { ...jobRule, properties: { ...jobRule.properties, format: { const: "rowline/job@2", type: "string" } } },
    migrate: migrateFormat([raise], "rowline/job", 2),
  };

  test("an older file is brought up step by step, and judged as the newest", () => {
    const { title, ...old } = LEAST;
    const against = readAgainst(JSON.stringify({ ...old, name: title }), "old", FUTURE);
    expect(against.problems).toEqual([]);
    expect(against.value).toMatchObject({ format: "rowline/job@2", title: "Courtyard" });
    expect(against.raw).toMatchObject({ format: "rowline/job@1", name: "Courtyard" });
  });
  test("steps run in order, each once, and leave the file's value alone", () => {
    const seen: number[] = [];
    const steps = [4, 3, 2].map(
      (to): Migration => ({
        to,
        change: (value) => {
          seen.push(to);
          (value.n as number[]).push(to);
          return value;
        },
      }),
    );
    const given = { n: [] as number[] };
    expect(migrate(steps, given, 1, 4)).toEqual({ n: [2, 3, 4] });
    expect(seen).toEqual([2, 3, 4]);
    expect(given.n).toEqual([]);
    expect(() => migrate(steps, given, 1, 5)).toThrow();
  });
  test("a later or another file of ours is refused by one sentence", () => {
    for (const [format, code] of [
      ["rowline/job@2", "futureFormat"],
      ["rowline/plan@1", "otherFormat"],
    ]) {
      const result = read({ ...LEAST, format, unknown: 1 });
      expect(!result.ok && result.problems.map((one) => one.code)).toEqual([code]);
    }
  });
  test("a format nobody knows is one problem among the others", () => {
    const result = read({ ...LEAST, format: "rowline/jop@1", colour: 1 });
    expect(!result.ok && result.problems.map((one) => one.code)).toEqual(["wrongChoice", "unknownKey"]);
  });
});

describe("clip and bond rules no board could keep", () => {
  const codeOf = (parts: Record<string, unknown>): string => {
    const result = read({ ...LEAST, ...parts });
    return result.ok ? "planned" : result.problems.map((one) => `${one.code} ${one.place}`).join(", ");
  };
  test("are refused at their field; the nearest that can be kept is not", () => {
    for (const [parts, place] of [
      [{ clips: { clearMax: 119 } }, "clips.clearMax"],
      [{ clips: { clearMax: 239, measure: "centre" } }, "clips.clearMax"],
      [{ clips: { endMax: 59 } }, "clips.endMax"],
      [{ clips: { length: 10 }, gaps: { end: 8 } }, "clips.length"],
      [{ clips: { perPiece: 20 } }, "clips.perPiece"],
      [{ bond: { kind: "free", stagger: 800 } }, "bond.stagger"],
      [{ bond: { firstRow: 3 } }, "bond.firstRow"],
    ] as const)
      expect(codeOf(parts)).toBe(`moreThan ${place}`);
    for (const parts of [
      { clips: { clearMax: 120 } },
      { clips: { clearMax: 240, measure: "centre" } },
      { clips: { endMax: 60 } },
      { clips: { length: 12 }, gaps: { end: 8 } },
      { clips: { perPiece: 8 } },
      { bond: { kind: "half", stagger: 800 } },
      { bond: { firstRow: 20 } },
    ])
      expect(codeOf(parts)).toBe("planned");
  });
});

describe("the published schema", () => {
  test("is the one jobs are validated with, and documents every field", () => {
    const schema = exportJobSchema();
    expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    const walk = (rule: Record<string, unknown>, path: string): void => {
      const properties = (rule.properties ?? {}) as Record<string, Record<string, unknown>>;
      for (const [key, child] of Object.entries(properties)) {
        expect(child.title, `${path}.${key}`).toBeTruthy();
        walk(child, `${path}.${key}`);
        for (const branch of (child.anyOf ?? []) as Record<string, unknown>[]) walk(branch, `${path}.${key}`);
        if (typeof child.items === "object") walk(child.items as Record<string, unknown>, `${path}.${key}[]`);
      }
    };
    walk(schema, "");
  });
  test("holds by an independent, compiling validator too", () => {
    const check = Compile(exportJobSchema() as never);
    expect(check.Check(LEAST)).toBe(true);
    expect(check.Check({ ...LEAST, bord: {} })).toBe(false);
    expect(check.Check({ ...LEAST, "x-bord": {} })).toBe(true);
  });
});

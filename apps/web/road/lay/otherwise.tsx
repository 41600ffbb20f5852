import { useState } from "preact/hooks";
import { FigureField } from "../../look/figure-field.tsx";
import { figureOf } from "./card.tsx";
import { Enter, type FormProps } from "./form.tsx";
import { enter } from "./log.ts";
import { OffBy } from "./off-by.tsx";
import { Replanned } from "./replan.tsx";
import { WallForm } from "./wall.tsx";

const FORMS = { cameOut: CameOut, broke: Broke, wall: WallForm, offcut: Offcut } as const;
type Form = keyof typeof FORMS;

/** It went otherwise: what, and what it means for the rest. */
export function Otherwise(props: Omit<FormProps, "done">) {
  const { app, log, busy, replan, cards } = props;
  const { lay } = app.words;
  const [form, setForm] = useState<Form | null>(null);
  const Open = form && FORMS[form];
  return (
    <section class="otherwise" aria-label={lay.otherwise}>
      <h3>{lay.otherwise}</h3>
      {(Object.keys(FORMS) as Form[]).map((one) => (
        <div key={one}>
          <button
            type="button"
            class="otherwise-key"
            aria-expanded={form === one}
            disabled={busy}
            onClick={() => {
              setForm(form === one ? null : one);
              replan.drop();
            }}
          >
            {lay[one]}
          </button>
          {form === one && Open && (
            <Open
              {...props}
              key={`${one} ${cards[0]!.row}`}
              done={(entered) => {
                setForm(null);
                if (entered) replan.ask(log.planHash);
              }}
            />
          )}
        </div>
      ))}
      {!log.other && <Replanned app={app} replan={replan} />}
    </section>
  );
}

/** The row's far edge as measured from the datum, left and right. */
function CameOut({ app, record, log, cards, by, done }: FormProps) {
  const { lay } = app.words;
  const [left, setLeft] = useState(0);
  const [right, setRight] = useState(0);
  const { row, farMm } = cards[0]!;
  const mm = figureOf(app);
  const words = (off: number) => (off === 0 ? lay.onLine : off > 0 ? lay.beyond : lay.short);
  return (
    <div class="form">
      <p>
        {lay.cameOutHint} <strong>{lay.far(mm(farMm))}</strong>
      </p>
      <OffBy app={app} name={lay.left} value={left} set={setLeft} says={words(left)} />
      <OffBy app={app} name={lay.right} value={right} set={setRight} says={words(right)} />
      <Enter
        app={app}
        done={done}
        enter={() => {
          const strip = record.setout.rows.find((one) => one.row === row)!.v1Um / 1000;
          enter(app, log, by, { kind: "line", row, v: [strip + left, strip + right] });
        }}
      />
    </div>
  );
}

function Broke({ app, log, cards, by, done }: FormProps) {
  const { lay } = app.words;
  const mm = figureOf(app);
  const pieces = cards.flatMap((card) => (card.part === "row" ? card.pieces : []));
  return (
    <div class="form">
      <p>{lay.brokeHint}</p>
      <div class="keys">
        {pieces.map(({ id, stopMm }) => (
          <button
            key={id}
            type="button"
            onClick={() => {
              enter(app, log, by, { kind: "broken", piece: id });
              done(true);
            }}
          >
            {id}, {mm(stopMm)}
          </button>
        ))}
        <button type="button" onClick={() => done(false)}>
          {lay.cancel}
        </button>
      </div>
    </div>
  );
}

function Offcut({ app, record, log, by, done }: FormProps) {
  const { lay } = app.words;
  const [length, setLength] = useState<number | null>(null);
  const [width, setWidth] = useState<number | null>(record.job.board.width);
  const ready = length !== null && width !== null;
  return (
    <div class="form">
      <div class="pair-fields">
        <FigureField
          app={app}
          label={lay.offcutLength}
          value={length}
          unit="mm"
          min={1}
          max={20_000}
          empty=""
          set={setLength}
        />
        <FigureField app={app} label={lay.offcutWidth} value={width} unit="mm" min={1} max={20_000} set={setWidth} />
      </div>
      <Enter
        app={app}
        done={done}
        disabled={!ready}
        enter={() => enter(app, log, by, { kind: "offcut", length: length!, width: width! })}
      />
    </div>
  );
}

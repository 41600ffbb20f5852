import type { CautionCode } from "../../core/stages/site/record.ts";

/** Cautions as the papers print them. Never legal advice: local codes, data sheets and licensed practice decide. */
export const cautions: Record<CautionCode, string> = {
  silica:
    "Silica dust: drilling, cutting and grinding concrete, screed, stone or tiles. Extract at the tool or work wet, wear a fitted mask, never sweep dry. The exposure limits of your country hold.",
  compositeDust:
    "Composite dust: cut outdoors or with extraction, wear a mask, collect the dust. It does not belong in soil or drains.",
  saw: "Saw: a blade with alternating carbide teeth, guard in place, board clamped. Eyes and ears protected. Follow the saw's own instructions.",
  services:
    "Before any hole: find cables, pipes, heating and tendons, with drawings and a detector. Unknown means do not drill. Work on what you hit belongs to licensed trades.",
  rcd: "Electric tools outdoors: only behind a residual-current device, more so near water. Check leads and plugs each day.",
  edgeHeight:
    "Edge and height: never take a guard down without another in place. The guard is measured from the finished floor, which comes up. Local code decides its height.",
  load: "Load: boards, filling and pallets weigh on a balcony or roof. Spread the stacks and keep within what a structural engineer permits in writing.",
  slips:
    "Wet boards can be slippery: ask for the slip class, keep them clean, clear snow without salt or metal unless the maker permits it.",
  poolSlips:
    "Pool edge: walked on wet and barefoot. Use boards of the slip class local code asks for there, and keep the edge clean.",
  hotSurface:
    "Hot surface: dark composite in full sun can burn bare feet. Tell the client; test with the hand before children and pets walk on it.",
  lifting: "Lifting: long boards and packs in pairs or with aid. Store flat, shaded and away from edges.",
  wetCement:
    "Wet levelling compound and mortar burn skin and eyes. Gloves, goggles, water at hand; keep the safety data sheet on site.",
  vibration:
    "Vibration: hundreds of holes are many minutes on the hammer. Change over, take breaks, keep bits sharp. The daily limits of your country hold.",
  peopleBelow:
    "People below: close off the ground under a balcony while you drill and cut. Catch water, dust and offcuts.",
  asbestos:
    "Old adhesive and tiles may hold asbestos. Have a sample tested before you lift, grind or drill them. Removal is for licensed firms only.",
  film: "Protective film: off as soon as laying ends. Left on in the weather it bonds to the board.",
};

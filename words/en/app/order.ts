import type { DaysWords, OrderWords, PriceWords } from "../../app/order.ts";

export const order: OrderWords = {
  noRecord: "There is an order as soon as the job can be planned.",
  head: { need: "drawn", spare: "spare", pack: "pack", buy: "buy", price: "price", sum: "sum" },
  priceOf: (item) => `Price of ${item}`,
  noPrice: "none",
  total: (money) => `Materials ${money}`,
  unpriced: (names) => `Without a price, and not in the sum: ${names}.`,
  byLitre: "Set by the litre in the prepare step.",
  traced: (name) => `${name}: show on the drawing`,
  noTax: "Spares and packs are in it. Tax, delivery and labour are not.",
  papers: "Papers",
  papersHint: "Print at 100 %, then lay a rule on the bar: it measures 100 mm.",
  paper: {
    summary: "Summary",
    findings: "Findings",
    base: "Base",
    staking: "Staking list",
    setout: "Set-out",
    fixing: "Clips and holes",
    cutlist: "Saw list",
    cards: "Row cards",
    order: "Order",
  },
  format: { pdf: "PDF", print: "Print", csv: "CSV", xlsx: "XLSX", dxf: "DXF", svg: "SVG" },
  formatOf: (paper, format) => `${paper}, ${format}`,
  plan: "Plan for other programs (JSON)",
  making: "Writing it \u2026",
  none: "This plan has no such list.",
};

export const price: PriceWords = {
  known: "What is known",
  materials: "Materials",
  unpriced: (count, names) =>
    count === 1 ? `One item has no price: ${names}.` : `${count} items have no price: ${names}.`,
  preparation: "Preparation, provisional",
  range: (low, high) => `${low} to ${high}`,
  preparationHow: (percent) =>
    `The cheapest way that can be had, give or take ${percent}: between the readings the base is not known.`,
  nothing: "Nothing is ground or filled.",
  unknown: "Not known.",
  hours: "Hours of people, laying",
  hoursHow:
    "Low: one person at 15 m² in 5 hours, drilling in it. High: two people at that pace, 45 seconds a hole on top, double through tiles. An hour a day to set up and clear away. Common practice, no source.",
  notYet: "Not here yet",
  notYetList:
    "What an hour costs, margin, tax and the quotation itself. Until then no price is made up from these figures.",
};

export const days: DaysWords = {
  known: "What is known",
  one: "One person",
  two: "Two people",
  days: (count) => (count === 1 ? "1 day" : `${count} days`),
  hours: (low, high) => `${low} to ${high} hours of people`,
  holes: "Holes to drill",
  area: "To be laid",
  how: "Low: one person at 15 m² in 5 hours, drilling in it. High: two people at that pace, 45 seconds a hole on top, double through tiles. Days of 8 hours, one of them to set up and clear away. Common practice, no source.",
  drying: "Drying",
  dryingUnknown:
    "Something is filled, and how long it dries is not known. Ask for the data sheet, and lay nothing before it is dry.",
  dryingNone: "Nothing is filled, so nothing has to dry.",
  notYet: "Not here yet",
  notYetList:
    "Dates, deliveries, weather, who comes when. A single date made from these figures would only look exact.",
};

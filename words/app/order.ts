/** The order step, and what price and days know already. Figures come in as text. */
export interface OrderWords {
  noRecord: string;
  head: Record<"need" | "spare" | "pack" | "buy" | "price" | "sum", string>;
  priceOf(item: string): string;
  noPrice: string;
  total(money: string): string;
  unpriced(names: string): string;
  byLitre: string;
  traced(name: string): string;
  noTax: string;
  papers: string;
  papersHint: string;
  paper: Record<
    "summary" | "findings" | "base" | "staking" | "setout" | "fixing" | "cutlist" | "cards" | "order",
    string
  >;
  format: Record<"pdf" | "print" | "csv" | "xlsx" | "dxf" | "svg", string>;
  formatOf(paper: string, format: string): string;
  plan: string;
  making: string;
  none: string;
}
export interface PriceWords {
  known: string;
  materials: string;
  unpriced(count: number, names: string): string;
  preparation: string;
  range(low: string, high: string): string;
  preparationHow(percent: string): string;
  nothing: string;
  unknown: string;
  hours: string;
  hoursHow: string;
  notYet: string;
  notYetList: string;
}
export interface DaysWords {
  known: string;
  one: string;
  two: string;
  days(count: number): string;
  hours(low: string, high: string): string;
  holes: string;
  area: string;
  how: string;
  drying: string;
  dryingUnknown: string;
  dryingNone: string;
  notYet: string;
  notYetList: string;
}

/** The part of JSON Schema 2020-12 the validator interprets. TypeBox schemas are such plain objects. */
export interface Rule {
  type?: string;
  title?: string;
  description?: string;
  default?: unknown;
  properties?: Record<string, Rule>;
  required?: readonly string[];
  patternProperties?: Record<string, Rule>;
  additionalProperties?: boolean | Rule;
  items?: Rule | boolean;
  prefixItems?: readonly Rule[];
  minItems?: number;
  maxItems?: number;
  anyOf?: readonly Rule[];
  enum?: readonly string[];
  const?: unknown;
  minimum?: number;
  exclusiveMinimum?: number;
  maximum?: number;
  exclusiveMaximum?: number;
  minLength?: number;
  maxLength?: number;
  pattern?: string;
  examples?: readonly unknown[];
  /** Unit of a number, for sentences: mm, %, ... */
  "x-unit"?: string;
}

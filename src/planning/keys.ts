/** What a column of the program stands for. `month` is an index into the plant's months. */
export type ColumnKey =
  | { readonly kind: 'receive'; readonly feed: string; readonly month: number }
  | { readonly kind: 'run'; readonly step: string; readonly window: string; readonly month: number }
  | { readonly kind: 'stock'; readonly material: string; readonly month: number }
  | { readonly kind: 'sell'; readonly outlet: string; readonly tier: number; readonly month: number }
  | { readonly kind: 'deliver'; readonly contract: string; readonly material: string; readonly month: number }
  | { readonly kind: 'missed'; readonly contract: string; readonly month: number }
  | { readonly kind: 'missedTerm'; readonly contract: string }
  | { readonly kind: 'short'; readonly contract: string; readonly month: number }
  | { readonly kind: 'dispose'; readonly disposal: string; readonly material: string; readonly month: number }
  | {
      readonly kind: 'attended' | 'shifts' | 'open' | 'on';
      readonly crew: string;
      readonly window: string;
      readonly month: number;
    }
  | { readonly kind: 'peak'; readonly month: number };

/** What a row of the program stands for. */
export type RowKey =
  | { readonly kind: 'balance'; readonly material: string; readonly month: number }
  | { readonly kind: 'machine'; readonly machine: string; readonly window: string; readonly month: number }
  | {
      readonly kind: 'crew';
      readonly machine: string;
      readonly crew: string;
      readonly window: string;
      readonly month: number;
    }
  | {
      readonly kind: 'attendance' | 'connected';
      readonly crew: string;
      readonly window: string;
      readonly month: number;
    }
  | { readonly kind: 'peak'; readonly window: string; readonly month: number }
  | {
      readonly kind: 'contractMinimum' | 'contractMaximum' | 'called' | 'notBoth';
      readonly contract: string;
      readonly month: number;
    }
  | { readonly kind: 'missedOnlyWhenShort'; readonly contract: string; readonly month: number }
  | { readonly kind: 'termMinimum' | 'termMaximum'; readonly contract: string }
  | {
      readonly kind: 'quality';
      readonly contract: string;
      readonly measure: string;
      readonly limit: 'min' | 'max';
      readonly month: number;
    }
  | { readonly kind: 'store'; readonly store: string; readonly month: number }
  | { readonly kind: 'disposal'; readonly disposal: string; readonly month: number };

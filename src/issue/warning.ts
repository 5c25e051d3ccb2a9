/** Something that does not stop an answer but should be known beside it. */
export interface Warning {
  /** RFC 6901 JSON Pointer to the place. */
  readonly pointer: string;
  readonly code: WarningCode;
  readonly message: string;
}

export type WarningCode = 'assay' | 'circuit' | 'starter figure' | 'bunched load' | 'only offered';

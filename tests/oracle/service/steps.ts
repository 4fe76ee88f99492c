/** Steps of a procedure as the service oracle reads them, and the jobs that they are for. */

export type PlainStep =
    | { readonly do: 'set'; readonly part: string; readonly position: string }
    | { readonly do: 'open' | 'close'; readonly part: string; readonly opening: string }
    | { readonly do: 'hold'; readonly valves: readonly string[]; readonly part: string; readonly opening: string }
    | { readonly do: 'remove' | 'fit'; readonly part: string; readonly pieces: readonly string[]; readonly again?: boolean }
    | { readonly do: 'look'; readonly part?: string; readonly piece: string }
    | { readonly do: 'clean'; readonly part: string; readonly piece: string }
    | { readonly do: 'switch'; readonly thing: 'bilge pump' | 'battery switch' | 'seacock'; readonly of?: string; readonly to: string }
    | { readonly do: 'place'; readonly thing: 'can' | 'pads'; readonly part: string; /** L */ readonly holds?: number }
    | { readonly do: 'prefill'; readonly part: string }
    | { readonly do: 'bleed'; readonly vent: string; readonly driver: string }
    | { readonly do: 'prove'; readonly pump: string; readonly vent: string }
    | { readonly do: 'start'; readonly engine: string; readonly tries: number; readonly seconds: number }
    | { readonly do: 'stop'; readonly what: string; readonly keyOut?: boolean }
    | { readonly do: 'run'; readonly what: string; readonly ends: boolean; readonly until?: { readonly tank: string; /** L */ readonly holds: number } }
    | { readonly do: 'read'; readonly gauge: string; readonly running?: boolean }
    | { readonly do: 'caution'; readonly topic: string; readonly part?: string }
    /** Before a bleed sequence for an engine that ran dry. */
    | { readonly do: 'ran dry'; readonly engine: string }
    | { readonly do: 'log' }
    /** wait, note: nothing changes */
    | { readonly do: 'words' };

export interface PlainJob { readonly verb: string; readonly part?: string; readonly piece: string }

export interface PlainProgram {
    readonly jobs: readonly PlainJob[];
    readonly starts: string;
    readonly ends: string;
    readonly underWay?: boolean;
    readonly steps: readonly PlainStep[];
}

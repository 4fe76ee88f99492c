/** Names a part, tank, vent, course, line-up or line of the boat; unique within it. */
export type Id = string;

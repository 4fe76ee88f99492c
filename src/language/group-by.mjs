// The parser generator calls Object.groupBy, which Node.js has only from version 21 on. Loaded with
// `node --import` for `npm run generate` alone; nothing that ships needs it.
Object.groupBy ??= (items, keyOf) => {
  const groups = Object.create(null);
  for (const item of items) (groups[keyOf(item)] ??= []).push(item);
  return groups;
};

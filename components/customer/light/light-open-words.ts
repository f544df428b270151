/** The element says in three languages why a link is refused (`messages/`), so it does not bring the engine's English words too. */
export const REFUSALS: Readonly<Record<string, string>> = {};

import * as z from "zod";

// The page's policy forbids making code out of text, so schemas are not even to try. Imported before any schema is made.
z.config({ jitless: true });

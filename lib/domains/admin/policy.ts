import { ability, type Subject } from "@/lib/access/ability";

export const readAudit = ability<Subject>()("audit.read", (person) => person.role === "admin");

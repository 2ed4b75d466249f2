export { streamSteppingCopy as GET } from "@/lib/domains/clips/routes";

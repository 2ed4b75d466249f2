export { showStill as GET } from "@/lib/domains/clips/routes";

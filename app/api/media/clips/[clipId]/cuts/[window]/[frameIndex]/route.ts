export { showCut as GET } from "@/lib/domains/clips/stills/routes";

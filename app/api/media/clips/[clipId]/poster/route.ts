export { showPoster as GET } from "@/lib/domains/clips/routes";

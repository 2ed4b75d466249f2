export { showFilm as GET } from "@/lib/domains/walkthroughs/routes";

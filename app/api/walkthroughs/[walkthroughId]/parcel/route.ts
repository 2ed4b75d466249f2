export { takeParcel as GET } from "@/lib/domains/walkthroughs/routes";

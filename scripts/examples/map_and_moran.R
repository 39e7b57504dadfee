# Draws one map of a downloaded release and repeats its global test of clustering.
#
#   Rscript map_and_moran.R FOLDER [SPECIES GROUP FIRST_SEASON]
#
# FOLDER holds the files of one release (its ZIP unpacked). Without a species, group and first season of a window, the map
# with the most places is taken. Needs sf, spdep and jsonlite (on Debian: r-cran-sf r-cran-spdep r-cran-jsonlite). Writes
# map.png, and ends with 1 where the index is not the one that the release states.

suppressPackageStartupMessages({
  library(sf)
  library(spdep)
  library(jsonlite)
})
TOLERANCE <- 1e-8

main <- function(folder, wanted) {
  # Codes of counties begin with zeros, so keys are read as texts.
  table <- function(end) read.csv(one(folder, end), colClasses = "character", na.strings = character())
  findings <- fromJSON(one(folder, "-findings.json"), simplifyVector = FALSE)$findings
  finding <- choose(findings, wanted)
  cells <- cells_of_map(table("-cells.csv"), finding)
  draw(st_read(one(folder, "-places.geojson"), quiet = TRUE), finding, cells, "map.png")

  result <- moran_index(cells, touching_places(table("-county-places.csv"), table("-neighbours.csv"), finding))
  stated <- finding$global$index
  cat(sprintf("%s: Moran's index of %d places %.12f, stated %.12f\n", label(finding), result$places, result$index, stated))
  cat("The map is in map.png.\n")
  quit(status = if (abs(result$index - stated) < TOLERANCE) 0 else 1)
}

one <- function(folder, end) {
  found <- list.files(folder, pattern = paste0(gsub(".", "\\.", end, fixed = TRUE), "$"), full.names = TRUE)
  if (length(found) != 1) stop(folder, " holds ", length(found), " files that end with ", end, "; one is needed.")
  found
}

choose <- function(findings, wanted) {
  maps <- Filter(function(f) f$kind == "clustering" && !is.null(f$global), findings)
  if (length(wanted) == 3) {
    maps <- Filter(function(f) identical(wanted, as.character(c(f$species, f$group, f$period$first))), maps)
  }
  if (length(maps) == 0) stop("The release tells no index of such a map.")
  maps[[which.max(vapply(maps, function(f) f$places, 0))]]
}

label <- function(f) {
  sprintf("%s, group %d, %d\u2013%d, by %s", f$species, f$group, f$period$first, f$period$last, f$grain)
}

cells_of_map <- function(cells, f) {
  kinds <- if (f$grain == "district") "district" else c("area", "county")
  subset(
    cells,
    species == f$species & group == f$group & first_season == f$period$first & last_season == f$period$last &
      assay == "whole plant" & design == "all" & place_kind %in% kinds
  )
}

# Two places touch where a county of one touches a county of the other.
touching_places <- function(county_places, neighbours, f) {
  own <- subset(county_places, species == f$species & first_season == f$period$first)
  place_of <- setNames(if (f$grain == "district") own$district else own$place, own$county)
  pairs <- unique(data.frame(a = place_of[neighbours$county], b = place_of[neighbours$neighbour]))
  subset(pairs, a != b)
}

# Moran's index of EB-standardised shares, each neighbour of a place with the same weight (see the code book).
moran_index <- function(cells, touching) {
  published <- subset(cells, status == "published")
  known <- subset(touching, a %in% published$place & b %in% published$place)
  places <- subset(published, place %in% known$a)
  tested <- as.numeric(places$tested)
  share <- as.numeric(places$resistant) / tested
  mean_share <- sum(as.numeric(places$resistant)) / sum(tested)
  scatter <- sum(tested * (share - mean_share)^2) / sum(tested)
  counting <- mean_share * (1 - mean_share)
  between <- max(0, scatter - counting / mean(tested))
  z <- (share - mean_share) / sqrt(between + counting / tested)

  links <- lapply(places$place, function(one) sort(match(known$b[known$a == one], places$place)))
  class(links) <- "nb"
  attr(links, "region.id") <- places$place
  weights <- nb2listw(links, style = "W")
  list(index = moran(z, weights, length(z), Szero(weights))$I, places = length(z))
}

draw <- function(outlines, f, cells, path) {
  shapes <- merge(outlines[c("place_kind", "place")], cells, by = c("place_kind", "place"))
  shade <- hcl.colors(101, "YlOrRd", rev = TRUE)
  share <- suppressWarnings(as.numeric(shapes$share))
  fill <- ifelse(shapes$status == "published", shade[1 + round(100 * share)], "white")
  fill[shapes$status == "withheld"] <- "#aaaaaa"
  png(path, width = 1400, height = 1000, res = 150)
  plot(st_geometry(shapes), col = fill, border = "#777777", lwd = 0.5)
  simulated <- if (any(cells$simulated == "yes")) "Simulated data. " else ""
  title(paste0(simulated, "Share resistant: ", label(f)), cex.main = 0.9)
  legend("bottomleft", legend = c("none", "half", "all", "withheld", "not screened"), bty = "n", cex = 0.8,
         fill = c(shade[c(1, 51, 101)], "#aaaaaa", "white"))
  invisible(dev.off())
}

arguments <- commandArgs(trailingOnly = TRUE)
if (!length(arguments) %in% c(1, 4)) stop("Rscript map_and_moran.R FOLDER [SPECIES GROUP FIRST_SEASON]")
main(arguments[1], arguments[-1])
